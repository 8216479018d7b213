#include "file.hpp"

#include <cerrno>
#include <string>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#ifdef __linux__
#include <sys/vfs.h>
#endif
#include <unistd.h>

#include "text.hpp"

namespace drawing {

namespace {

std::error_code last_error() { return {errno, std::generic_category()}; }

/// Whether a link only stands for a file that is open already, as /dev/stdout does in the end.
bool stands_for_open_file(const std::filesystem::path& link) {
#ifdef __linux__
    constexpr auto proc_file_system = 0x9fa0; // PROC_SUPER_MAGIC of <linux/magic.h>
    struct statfs of {};
    return ::statfs(link.has_parent_path() ? link.parent_path().c_str() : ".", &of) == 0 && of.f_type == proc_file_system;
#else
    (void)link;
    return false;
#endif
}

/// Where a file is to be written: past the links, what stands there.
struct destination {
    std::filesystem::path place{};
    std::optional<struct stat> before{};
    bool through = false; ///< not a regular file: it is written through
};
destination destination_of(const std::filesystem::path& file) {
    destination d{file, {}, false};
    if (!file.has_filename()) { throw cannot_write(file, std::make_error_code(std::errc::is_a_directory)); }
    constexpr int most_links = 40; // as many as the kernel follows
    for (int links = 0; links <= most_links; ++links) {
        struct stat now {};
        if (::lstat(d.place.c_str(), &now) != 0) {
            if (errno == ENOENT) { return d; }
            throw cannot_write(file, last_error());
        }
        if (S_ISDIR(now.st_mode)) { throw cannot_write(file, std::make_error_code(std::errc::is_a_directory)); }
        if (!S_ISLNK(now.st_mode)) {
            d.before = now;
            d.through = !S_ISREG(now.st_mode);
            return d;
        }
        if (stands_for_open_file(d.place)) {
            d.through = true;
            return d;
        }
        std::error_code error;
        const auto target = std::filesystem::read_symlink(d.place, error);
        if (error) { throw cannot_write(file, error); }
        d.place = d.place.parent_path() / target;
    }
    throw cannot_write(file, std::make_error_code(std::errc::too_many_symbolic_link_levels));
}

void write_through(const std::filesystem::path& file, std::string_view bytes) {
    // What an open file holds already stays before what is written.
    const int descriptor = ::open(file.c_str(), O_WRONLY | O_APPEND | O_NOCTTY | O_CLOEXEC);
    if (descriptor < 0) { throw cannot_write(file, last_error()); }
    try {
        write_bytes(descriptor, bytes, file);
    } catch (...) {
        ::close(descriptor);
        throw;
    }
    if (::close(descriptor) != 0) { throw cannot_write(file, last_error()); }
}

} // namespace

cannot_write::cannot_write(std::filesystem::path file, std::error_code why)
    : std::runtime_error("cannot write " + printable(file.string(), 4096) + ": " + why.message()), file_(std::move(file)),
      why_(why) {}

void write_bytes(int descriptor, std::string_view bytes, const std::filesystem::path& name) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0) {
            if (errno == EINTR) { continue; }
            throw cannot_write(name, last_error());
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    // Not every kind of file can be told to reach the disk; those have none.
    if (::fsync(descriptor) != 0 && errno != EINVAL && errno != EROFS) { throw cannot_write(name, last_error()); }
}

waiting_file::waiting_file(const std::filesystem::path& file, std::string_view bytes, standing s)
    : file_(file), standing_(s) {
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
    if (const auto* place = made.place()) { remove_leftovers(place->has_parent_path() ? place->parent_path() : "."); }
    made.put();
}
void write_file(const std::filesystem::path& file, std::string_view bytes, standing s) {
    waiting_file made(file, bytes, s);
    put_in_place(made);
}

} // namespace drawing
