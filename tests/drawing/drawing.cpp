// All drawings, of instruments and with titles of every kind.
#include <doctest/doctest.h>

#include "hostile_text.hpp"
#include "read_back.hpp"
#include "solved.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr char hostile[] = "<script>&amp; \"q\" ') Tj (\x1b[2J\x07\0 \xff\xfe \xE2\x80\xAE end";
const std::string nasty(hostile, sizeof hostile - 1); // with the zero inside

/// Whether everything on a page lies on the paper: strokes by their corners, letters by the ends of their lines.
/// Templates over several pages are cut by the page itself.
void check_on_paper(const std::string& svg, const drawing::box& sheet) {
    int outside = 0;
    for (const auto& s : drawn::strokes_of(svg)) {
        for (const auto& p : s.points) {
            outside += p.x >= 0 && p.y >= 0 && p.x <= sheet.width && p.y <= sheet.height ? 0 : 1;
        }
    }
    CHECK(outside == 0);
    std::size_t letters = 0;
    int letters_outside = 0;
    for (const drawn::written_line& l : drawn::lines_of(svg)) {
        letters += l.words.size();
        const drawing::place end{l.start.x + (l.upward ? 0 : l.width), l.start.y - (l.upward ? l.width : 0)};
        letters_outside +=
            l.start.x >= 5 && end.x <= sheet.width - 5 && end.y >= 5 && l.start.y <= sheet.height - 5 ? 0 : 1;
    }
    CHECK(letters > 100);
    CHECK(letters_outside == 0);
}

void check_files(const drawing::subject& found, const drawing::subject* planned, const std::string& title,
                 drawing::paper on) {
    const files::scratch_folder folder;
    drawing::options how;
    how.head = {title, on, drawing::measures::both};
    how.png_dots_per_inch = 40;
    const auto files = drawing::write_all(folder.path, found, planned, how).written;
    const drawing::box sheet = drawing::landscape(on);
    CHECK(files.size() >= 9);
    for (const auto& f : files) {
        CAPTURE(f.string());
        const std::string bytes = files::read_all(f);
        const std::string quoted = "'" + f.string() + "'";
        if (f.extension() == ".svg") {
            CHECK(drawn::succeeds("xmllint --noout " + quoted));
            for (const char c : bytes) {
                if (static_cast<unsigned char>(c) < 0x20 && c != '\n') { FAIL_CHECK("control character in SVG"); }
            }
            if (f.filename().string().find("templates") == std::string::npos) { check_on_paper(bytes, sheet); }
        } else if (f.extension() == ".png") {
            REQUIRE(bytes.size() > 24);
            CHECK(bytes.substr(0, 8) == "\x89PNG\r\n\x1a\n");
            const auto number = [&](std::size_t at) {
                int n = 0;
                for (std::size_t k = 0; k < 4; ++k) { n = n * 256 + static_cast<unsigned char>(bytes[at + k]); }
                return n;
            };
            CHECK(std::abs(number(16) - sheet.width / 25.4 * 40) <= 0.5);
            CHECK(std::abs(number(20) - sheet.height / 25.4 * 40) <= 0.5);
            CHECK(bytes.find("IEND") != std::string::npos);
        } else {
            const std::string info = drawn::output_of("pdfinfo " + quoted);
            CHECK(info.find("Pages:") != std::string::npos);
            const std::string words = drawn::output_of("pdftotext " + quoted + " -");
            CHECK(words.find("qualified repairer decides") != std::string::npos);
            for (const char c : words) {
                if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\f') {
                    FAIL_CHECK("control character in PDF text");
                }
            }
            CHECK((words.find("nan") == std::string::npos && words.find("inf ") == std::string::npos));
        }
    }
}

} // namespace

TEST_CASE("titles are untrusted") {
    const auto s = drawn::four_course();
    check_files(s, nullptr, nasty, drawing::paper::a4);
    check_files(s, nullptr, std::string(100000, 'W'), drawing::paper::letter);
    check_files(s, nullptr, "", drawing::paper::a4);

    const files::scratch_folder folder;
    drawing::options how;
    how.head.title = nasty;
    how.kinds = {drawing::file_kind::pdf};
    const auto files = drawing::write_all(folder.path, s, nullptr, how).written;
    // What is printable of it is still there, as words and not as anything that acts.
    CHECK(drawn::output_of("pdftotext '" + files[0].string() + "' -").find("<script>&amp; \"q\" ') Tj (") !=
          std::string::npos);
    CHECK(drawn::output_of("pdfinfo '" + files[0].string() + "'").find("<script>&amp;") != std::string::npos);
}

TEST_CASE("SVG and PDF show a title's characters that act or hide, and hold none of them") {
    const auto s = drawn::four_course();
    const auto drawn_with = [&](const std::string& title) {
        drawing::options how;
        how.head.title = title;
        how.kinds = {drawing::file_kind::svg, drawing::file_kind::pdf};
        const files::scratch_folder folder;
        const auto files = drawing::write_all(folder.path, s, nullptr, how).written;
        std::pair<std::string, std::string> both;
        for (const auto& f : files) {
            const std::string quoted = "'" + f.string() + "'";
            if (f.extension() == ".svg") {
                both.first += files::read_all(f);
            } else {
                both.second += drawn::output_of("pdftotext " + quoted + " - | tr -d '\\f'");
                both.second += drawn::output_of("pdfinfo " + quoted + " | grep Title");
            }
        }
        return both;
    };
    for (const auto c : hostile::characters()) {
        if (c % 7 != 0 && c != 0x202e && c != 0x1b) { continue; } // each kind of them; all would take a minute
        CAPTURE(c);
        const std::string title = "a" + hostile::utf8(c) + "z";
        std::string written_out = "a";
        for (const char byte : hostile::utf8(c)) {
            char text[8];
            std::snprintf(text, sizeof text, "\\x%02x", static_cast<unsigned>(static_cast<unsigned char>(byte)));
            written_out += text;
        }
        written_out += "z";
        const auto [svg, pdf] = drawn_with(title);
        CHECK(!hostile::is_in(svg));
        CHECK(!hostile::is_in(pdf));
        CHECK(pdf.find("Title:           " + written_out) != std::string::npos);
        const bool same_as_written_out = svg == drawn_with(written_out).first;
        CHECK(same_as_written_out);
    }
}

TEST_CASE("instruments of every kind are drawn and stay on the paper") {
    const auto found = drawn::four_course(), planned = drawn::four_course_planned();
    check_files(found, &planned, "found and planned", drawing::paper::letter);
    check_files(drawn::pinned(6, 650, 0), nullptr, "no frets", drawing::paper::a4);
    check_files(drawn::pinned(1, 650, 1), nullptr, "one string, one fret", drawing::paper::a4);
    check_files(drawn::pinned(4, 1060, 24), nullptr, "bass", drawing::paper::a4);
    auto slanted = drawn::pinned(5, 900, 22);
    slanted.fan = fan{.bass_scale = 920 * mm,
                      .treble_scale = 850 * mm,
                      .square_fret = 7,
                      .frets = 24,
                      .y_bass_at_nut = -16 * mm,
                      .y_treble_at_nut = 16 * mm,
                      .y_bass_at_saddle = -21 * mm,
                      .y_treble_at_saddle = 21 * mm};
    check_files(slanted, nullptr, "fan", drawing::paper::letter);
    const auto other = drawn::pinned(8, 600, 12);
    check_files(found, &other, "planned to be quite another", drawing::paper::a4);
}

TEST_CASE("a hundred strings are drawn") {
    const auto s = drawn::pinned(100, 640, 24);
    const files::scratch_folder folder;
    drawing::options how;
    how.kinds = {drawing::file_kind::pdf, drawing::file_kind::svg};
    const auto files = drawing::write_all(folder.path, s, nullptr, how).written;
    for (const auto& f : files) {
        if (f.extension() == ".svg" && f.filename().string().find("templates") == std::string::npos) {
            check_on_paper(files::read_all(f), drawing::landscape(drawing::paper::a4));
        }
    }
    const std::string words = drawn::output_of("pdftotext '" + (folder.path / "templates.pdf").string() + "' -");
    CHECK(words.find("100 A3") != std::string::npos);
}

TEST_CASE("what was not solved is refused") {
    const files::scratch_folder folder;
    CHECK_THROWS_AS(drawing::write_all(folder.path, drawing::subject(), nullptr, {}), invalid_input);
    auto s = drawn::four_course();
    const drawing::subject none;
    CHECK_THROWS_AS(drawing::write_all(folder.path, s, &none, {}), invalid_input);
    s.instrument.board.scale.frets = 12;
    CHECK_THROWS_AS(drawing::write_all(folder.path, s, nullptr, {}), invalid_input);
    drawing::options how;
    how.png_dots_per_inch = 0;
    CHECK_THROWS_AS(drawing::write_all(folder.path, drawn::four_course(), nullptr, how), invalid_input);
    CHECK(std::filesystem::is_empty(folder.path));
}
