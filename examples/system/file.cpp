#include "file.hpp"

#include <utility>

#include "../text/shown.hpp"
#include "destination.hpp"
#include "program.hpp"

namespace outside {

namespace {

constexpr std::string_view mark = ".new-tautline-";
constexpr std::size_t longest_name = 255; // of a file, on all common file systems

} // namespace

std::filesystem::path folder_of(const std::filesystem::path& place) {
    return place.has_parent_path() ? place.parent_path() : std::filesystem::path(".");
}
std::filesystem::path name_beside(const std::filesystem::path& place, unsigned long process, int attempt) {
    const std::string end = std::string(mark) + std::to_string(process) + "-" + std::to_string(attempt);
    // In the letters of the system's own names: a cut one need not be text.
    auto name = place.filename().native().substr(0, longest_name - end.size());
    name.append(end.begin(), end.end());
    return folder_of(place) / name;
}
bool is_name_beside(std::string_view name) {
    const std::size_t at = name.rfind(mark);
    if (at == std::string_view::npos || at == 0) { return false; }
    const std::string_view numbers = name.substr(at + mark.size());
    const std::size_t dash = numbers.find('-');
    return dash != std::string_view::npos && dash > 0 && dash + 1 < numbers.size() &&
           numbers.find_first_not_of("0123456789-") == std::string_view::npos &&
           numbers.find('-', dash + 1) == std::string_view::npos;
}

cannot_write::cannot_write(std::filesystem::path file, std::error_code why)
    : std::runtime_error("cannot write " + safe_text::shown(text_of(file)) + ": " + why.message()), file_(std::move(file)),
      why_(why) {}

waiting_file::waiting_file(const std::filesystem::path& file, std::string_view bytes, standing s)
    : file_(file), standing_(s) {
    if (!file.has_filename()) { throw cannot_write(file, std::make_error_code(std::errc::is_a_directory)); }
    const destination d = destination_of(file);
    if (d.through) {
        through_ = bytes;
        return;
    }
    try {
        if (d.before && s == standing::is_kept) { throw cannot_write(file, std::make_error_code(std::errc::file_exists)); }
        made_.emplace(d.place, d.before ? &*d.before : nullptr);
        made_->fill(bytes);
    } catch (const cannot_write& e) {
        throw cannot_write(file, e.why()); // by the name that was given
    }
}
void waiting_file::add(std::string_view bytes) {
    if (!made_) {
        through_ += bytes;
        return;
    }
    try {
        made_->fill(bytes);
    } catch (const cannot_write& e) { throw cannot_write(file_, e.why()); }
}
void waiting_file::put() {
    if (!made_) {
        write_through(file_, through_);
        return;
    }
    try {
        standing_ == standing::is_kept ? made_->add() : made_->replace();
    } catch (const cannot_write& e) { throw cannot_write(file_, e.why()); }
}

void put_in_place(waiting_file& made) {
    if (const auto* place = made.place()) { remove_leftovers(folder_of(*place)); }
    made.put();
}
void write_file(const std::filesystem::path& file, std::string_view bytes, standing s) {
    waiting_file made(file, bytes, s);
    put_in_place(made);
}

} // namespace outside
