#include "drawing.hpp"

#include <algorithm>

#include "buzz_map.hpp"
#include "side_view.hpp"
#include "templates.hpp"

namespace drawing {

namespace {

void write(const std::filesystem::path& folder, const sheets& drawn, const options& how,
           std::vector<std::filesystem::path>& written) {
    const auto put = [&](const std::string& name, const std::string& bytes) {
        written.push_back(folder / name);
        write_file(written.back(), bytes);
    };
    const auto digits = std::to_string(drawn.pages.size()).size();
    for (const file_kind kind : how.kinds) {
        if (kind == file_kind::pdf) {
            put(drawn.name + ".pdf", pdf_of(drawn.pages, how.head.title));
            continue;
        }
        for (std::size_t i = 0; i < drawn.pages.size(); ++i) {
            std::string number = std::to_string(i + 1);
            number.insert(0, digits - number.size(), '0');
            const std::string name = drawn.name + (drawn.pages.size() > 1 ? "_" + number : "");
            if (kind == file_kind::svg) {
                put(name + ".svg", svg_of(drawn.pages[i]));
            } else {
                put(name + ".png", png_of(drawn.pages[i], how.png_dots_per_inch));
            }
        }
    }
}

/// A state that was not solved, or is of another instrument, would be read past its end.
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

std::vector<std::filesystem::path> write_all(const std::filesystem::path& folder, const subject& found,
                                             const subject* planned, const options& how) {
    require_solved(found, "found");
    if (planned) { require_solved(*planned, "planned"); }
    tl::require("png_dots_per_inch", how.png_dots_per_inch, tl::between(10.0, 1200.0));
    std::error_code error;
    std::filesystem::create_directory(folder, error);
    if (error) { throw cannot_write(folder, error); }
    std::vector<std::filesystem::path> written;
    write(folder, side_view(how.head, found, planned), how, written);
    write(folder, buzz_map(how.head, found, planned), how, written);
    write(folder, templates(how.head, found, planned), how, written);
    return written;
}

} // namespace drawing
