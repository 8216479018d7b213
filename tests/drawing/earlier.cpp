// What an earlier job left in the folder that is drawn into: drawings of this program go, everything else stays.
#include <csignal>

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <doctest/doctest.h>

#include <drawing.hpp>
#include <own_mark.hpp>

#include "read_back.hpp"
#include "solved.hpp"

namespace {

using path = std::filesystem::path;

drawing::options only(std::initializer_list<drawing::file_kind> kinds) {
    drawing::options how;
    how.kinds = kinds;
    how.png_dots_per_inch = 20;
    return how;
}
std::size_t names_in(const path& folder) {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}

} // namespace

TEST_CASE("pages of a larger job go when a smaller one is drawn into its folder") {
    const files::scratch_folder folder;
    const auto how = only({drawing::file_kind::pdf, drawing::file_kind::svg, drawing::file_kind::png});
    const auto large = drawing::write_all(folder.path, drawn::pinned(4, 1060, 24), nullptr, how);
    CHECK(large.removed.empty());
    CHECK(large.not_ours.empty());
    const auto small = drawing::write_all(folder.path, drawn::pinned(4, 350, 12), nullptr, how);
    CHECK(small.written.size() < large.written.size());
    CHECK(!small.removed.empty());
    CHECK(small.not_ours.empty());
    CHECK(names_in(folder.path) == small.written.size());
    for (const auto& f : small.written) { CHECK(std::filesystem::exists(f)); }
    for (const auto& f : small.removed) {
        CHECK(std::count(large.written.begin(), large.written.end(), f) == 1);
        CHECK(std::count(small.written.begin(), small.written.end(), f) == 0);
    }
    // Kinds that are not wanted any more go, too.
    const auto pdf = drawing::write_all(folder.path, drawn::pinned(4, 350, 12), nullptr, only({drawing::file_kind::pdf}));
    CHECK(pdf.written.size() == 3);
    CHECK(names_in(folder.path) == 3);
}

TEST_CASE("what somebody else put there stays, whatever its name") {
    const files::scratch_folder folder;
    const auto how = only({drawing::file_kind::svg});
    const auto mine = folder.write("templates_99.svg", "<svg><!-- my own --></svg>");
    const auto note = folder.write("note.txt", std::string(drawing::own_mark)); // the mark alone makes no drawing either
    const auto copy = folder.write("copy_of_side_view.svg", "x");
    std::filesystem::create_directory(folder.path / "templates_98.png");
    std::filesystem::create_symlink("nowhere", folder.path / "buzz_map_7.pdf");
    for (int time = 0; time < 2; ++time) {
        const auto drawn = drawing::write_all(folder.path, drawn::four_course(), nullptr, how);
        CHECK(drawn.not_ours == std::vector<path>{folder.path / "buzz_map_7.pdf", folder.path / "templates_98.png", mine});
        CHECK(drawn.removed.empty());
        CHECK(files::read_all(mine) == "<svg><!-- my own --></svg>");
        CHECK(std::filesystem::exists(note));
        CHECK(std::filesystem::exists(copy));
        CHECK(std::filesystem::is_symlink(folder.path / "buzz_map_7.pdf"));
    }
    // A drawing that was renamed is somebody's own.
    std::filesystem::rename(folder.path / "side_view.svg", folder.path / "kept_side_view.svg");
    (void)drawing::write_all(folder.path, drawn::four_course(), nullptr, how);
    CHECK(std::filesystem::exists(folder.path / "kept_side_view.svg"));
}

TEST_CASE("a file of somebody else's under the name of a drawing is not written over") {
    const files::scratch_folder folder;
    const auto mine = folder.write("buzz_map.svg", "mine");
    const auto how = only({drawing::file_kind::svg});
    try {
        (void)drawing::write_all(folder.path, drawn::four_course(), nullptr, how);
        FAIL("nothing was thrown");
    } catch (const drawing::not_a_drawing& e) {
        CHECK(std::string(e.what()).find("buzz_map.svg was not drawn by this program") != std::string::npos);
    }
    CHECK(files::read_all(mine) == "mine");
    CHECK(names_in(folder.path) == 1);
}

TEST_CASE("a drawing that is a link stays one, and what it points to is drawn anew") {
    const files::scratch_folder folder, other;
    const auto how = only({drawing::file_kind::svg});
    (void)drawing::write_all(folder.path, drawn::four_course(), nullptr, how);
    const auto view = folder.path / "side_view.svg", target = other.path / "view.svg";
    const std::string first = files::read_all(view);
    std::filesystem::rename(view, target);
    std::filesystem::create_symlink(target, view);
    auto again = how;
    again.head.title = "again";
    (void)drawing::write_all(folder.path, drawn::four_course(), nullptr, again);
    CHECK(std::filesystem::is_symlink(view));
    CHECK(files::read_all(target) != first);
    CHECK(drawing::is_marked(target));
}

TEST_CASE("drawn files keep their mode, and what a kill left goes") {
    const files::scratch_folder folder;
    const auto how = only({drawing::file_kind::pdf});
    (void)drawing::write_all(folder.path, drawn::four_course(), nullptr, how);
    const auto view = folder.path / "side_view.pdf";
    REQUIRE(chmod(view.c_str(), 0640) == 0);
    (void)folder.write("templates_7.png.new-tautline-4-0", "half a page");
    (void)drawing::write_all(folder.path, drawn::four_course(), nullptr, how);
    struct stat now {};
    REQUIRE(::stat(view.c_str(), &now) == 0);
    CHECK((now.st_mode & 0777U) == 0640U);
    CHECK(names_in(folder.path) == 3);
}

TEST_CASE("the names of drawings") {
    for (const char* name : {"side_view.pdf", "buzz_map.svg", "templates.png", "templates_1.svg", "templates_012.png"}) {
        CHECK_MESSAGE(drawing::is_drawing_name(name), name);
    }
    for (const char* name : {"templates", "templates_.svg", "templates_1a.svg", "templates_1.svgz", "mytemplates.svg",
                             "templates1.svg", "templates-1.svg", "templates_1.svg.bak", ".svg", "", "Templates.svg"}) {
        CHECK_MESSAGE(!drawing::is_drawing_name(name), name);
    }
}

TEST_CASE("the mark leaves the files what they were") {
    // Check value of CRC-32 for "123456789" (catalogues of checksums), and of PNG's last chunk (W3C, PNG, 2nd edition).
    CHECK(drawing::crc32("123456789") == 0xcbf43926U);
    CHECK(drawing::crc32("IEND") == 0xae426082U);
    const files::scratch_folder folder;
    const auto how = only({drawing::file_kind::pdf, drawing::file_kind::svg, drawing::file_kind::png});
    for (const auto& f : drawing::write_all(folder.path, drawn::four_course(), nullptr, how).written) {
        CAPTURE(f.string());
        CHECK(drawing::is_marked(f));
        const std::string bytes = files::read_all(f), quoted = "'" + f.string() + "'";
        CHECK(bytes.find(drawing::own_mark) != std::string::npos);
        if (f.extension() == ".pdf") {
            // A broken table of objects would be told on the way.
            const std::string said = drawn::output_of("pdfinfo " + quoted + " 2>&1");
            CHECK(said.find("rror") == std::string::npos);
            CHECK(said.find("Pages:") != std::string::npos);
            CHECK(bytes.ends_with("%%EOF\n"));
        } else if (f.extension() == ".svg") {
            CHECK(drawn::succeeds("xmllint --noout " + quoted));
        } else {
            // Chunk after chunk: the checksum over all but the size, as libpng wrote the others.
            std::size_t at = 8, texts = 0;
            std::string kind;
            const auto number = [&](std::size_t place) {
                std::uint32_t n = 0;
                for (std::size_t k = 0; k < 4; ++k) { n = n << 8U | static_cast<unsigned char>(bytes.at(place + k)); }
                return n;
            };
            while (at < bytes.size()) {
                const std::size_t size = number(at);
                kind = bytes.substr(at + 4, 4);
                texts += kind == "tEXt" ? 1 : 0;
                CHECK(drawing::crc32(bytes.substr(at + 4, size + 4)) == number(at + 8 + size));
                at += size + 12;
            }
            CHECK(kind == "IEND");
            CHECK(texts == 1);
        }
        // A part of the mark is none.
        const auto cut =
            folder.write("cut" + f.extension().string(), "Drawn by Tautline " + bytes.substr(bytes.size() / 3, 900));
        CHECK(!drawing::is_marked(cut));
        std::filesystem::remove(cut);
    }
    CHECK(!drawing::is_marked(folder.path));
    CHECK(!drawing::is_marked(folder.path / "none.svg"));
    CHECK(!drawing::is_marked(folder.write("empty.pdf", "")));
}
