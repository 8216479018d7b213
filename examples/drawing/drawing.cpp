#include "drawing.hpp"

#include <algorithm>

#include <program.hpp>

#include "buzz_map.hpp"
#include "own_mark.hpp"
#include "side_view.hpp"
#include "templates.hpp"
#include "text.hpp"

namespace drawing {

namespace {

struct drawn_file {
    std::string name;
    std::string bytes;
};

void draw(const sheets& drawn, const options& how, std::vector<drawn_file>& files) {
    const auto digits = std::to_string(drawn.pages.size()).size();
    for (const file_kind kind : how.kinds) {
        if (kind == file_kind::pdf) {
            files.push_back({drawn.name + ".pdf", marked_pdf(pdf_of(drawn.pages, how.head.title))});
            continue;
        }
        for (std::size_t i = 0; i < drawn.pages.size(); ++i) {
            std::string number = std::to_string(i + 1);
            number.insert(0, digits - number.size(), '0');
            const std::string name = drawn.name + (drawn.pages.size() > 1 ? "_" + number : "");
            if (kind == file_kind::svg) {
                files.push_back({name + ".svg", marked_svg(svg_of(drawn.pages[i]))});
            } else {
                files.push_back({name + ".png", marked_png(png_of(drawn.pages[i], how.png_dots_per_inch))});
            }
        }
    }
}

/// The files in a folder that are named like drawings, in the order of their names, and whether this program drew them.
struct earlier_drawings {
    std::vector<std::filesystem::path> ours{}, not_ours{};
};
earlier_drawings drawings_in(const std::filesystem::path& folder) {
    earlier_drawings found;
    std::error_code error;
    for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        if (!is_drawing_name(outside::text_of(at->path().filename()))) { continue; }
        (is_marked(at->path()) ? found.ours : found.not_ours).push_back(at->path());
    }
    if (error) { throw outside::cannot_write(folder, error); }
    std::sort(found.ours.begin(), found.ours.end());
    std::sort(found.not_ours.begin(), found.not_ours.end());
    return found;
}

/// Puts files into a folder and removes earlier drawings.
drawn_folder put(const std::filesystem::path& folder, const std::vector<drawn_file>& files) {
    outside::remove_leftovers(folder);
    const earlier_drawings earlier = drawings_in(folder);
    drawn_folder done;
    done.not_ours = earlier.not_ours;
    for (const drawn_file& f : files) {
        done.written.push_back(folder / f.name);
        if (std::count(earlier.not_ours.begin(), earlier.not_ours.end(), done.written.back()) > 0) {
            throw not_a_drawing(done.written.back());
        }
    }
    std::vector<outside::waiting_file> waiting;
    for (std::size_t i = 0; i < files.size(); ++i) { waiting.emplace_back(done.written[i], files[i].bytes); }
    // All old files go before any new one comes, so two jobs are never mixed, even if the program is killed now.
    for (const auto& old : earlier.ours) {
        const bool again = std::count(done.written.begin(), done.written.end(), old) > 0;
        if (again && std::filesystem::is_symlink(old)) { continue; } // what it points to is drawn anew
        std::error_code error;
        if (!std::filesystem::remove(old, error) && error) { throw outside::cannot_write(old, error); }
        if (!again) { done.removed.push_back(old); }
    }
    for (outside::waiting_file& w : waiting) { w.put(); }
    return done;
}

/// Refuses a state that was not solved or belongs to another instrument: it would be read past its end.
void require_solved(const subject& s, const std::string& name) {
    const auto strings = s.setup.strings.size(),
               frets = static_cast<std::size_t>(std::max(0, s.instrument.board.scale.frets));
    tl::require_that(strings > 0 && strings == s.stringing.strings.size() && strings == s.instrument.posts.size() &&
                         strings == s.setup.bridge_strings.size() && frets == s.setup.fret_x.size() &&
                         !s.setup.bow.x.empty(),
                     name + ".setup", "must be what solving its own instrument and strings gave");
    tl::require_that(!s.action_fret || (*s.action_fret >= 1 && *s.action_fret <= s.instrument.board.scale.frets),
                     name + ".action_fret", "must be one of the board's frets");
    if (s.fan) { tl::require_valid(*s.fan, name + ".fan"); }
}

} // namespace

not_a_drawing::not_a_drawing(const std::filesystem::path& file)
    : std::runtime_error(printable(outside::text_of(file), 4096) +
                         " was not drawn by this program; move it away, or draw into another folder") {}

std::vector<file_kind> kinds_at_hand() {
    if (!makes_pdf_and_png()) { return {file_kind::svg}; }
    return {file_kind::pdf, file_kind::svg, file_kind::png};
}

drawn_folder write_all(const std::filesystem::path& folder, const subject& found, const subject* planned,
                       const options& how) {
    require_solved(found, "found");
    if (planned) { require_solved(*planned, "planned"); }
    tl::require("png_dots_per_inch", how.png_dots_per_inch, tl::between(10.0, 1200.0));
    std::vector<drawn_file> files;
    draw(side_view(how.head, found, planned), how, files);
    draw(buzz_map(how.head, found, planned), how, files);
    draw(templates(how.head, found, planned), how, files);
    std::error_code error;
    std::filesystem::create_directory(folder, error);
    if (error) { throw outside::cannot_write(folder, error); }
    return put(folder, files);
}

} // namespace drawing
