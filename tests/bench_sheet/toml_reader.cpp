#include "toml_reader.hpp"

#include <optional>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using job_file::mistake;
using job_file::table_reader;

namespace {

struct shelf {
    field<length<>> width{};
    int boards = 3;
    std::optional<field<length<>>> lip{};
    std::vector<field<length<>>> gaps{};
    double share = 0.5;
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("width", more_than(0 * mm), self.width...);
        visit("boards", between(1, 9), self.boards...);
        visit("lip", more_than(0 * mm), self.lip...);
        visit("gaps", more_than(0 * mm), self.gaps...);
        visit("share", between(0, 1).fair_default("half"), self.share...);
    }
};
struct room {
    std::string title{};
    shelf main_shelf{};
    std::vector<shelf> others{};
    std::optional<shelf> loft{};
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("title", self.title...);
        visit("main_shelf", self.main_shelf...);
        visit("others", self.others...);
        visit("loft", self.loft...);
    }
};

std::vector<mistake> read(std::string_view text, room& into) {
    std::vector<mistake> found;
    job_file::file_notes notes;
    const toml::table table = toml::parse(text);
    table_reader::read(table, "", into, found, notes);
    return found;
}
void check_one(std::string_view text, std::uint32_t line, std::string_view part) {
    room r;
    const auto found = read(text, r);
    REQUIRE(found.size() == 1);
    CHECK(found[0].line == line);
    CHECK_MESSAGE(found[0].text.find(part) != std::string::npos, found[0].text);
}

} // namespace

TEST_SUITE("toml_reader") {
    TEST_CASE("everything of a described aggregate is read") {
        room r;
        const auto found =
            read("title = \"back\"\n[main_shelf]\nwidth = \"25 1/2 in\"\nboards = 4\nlip = \"12 thou\"\ngaps = [\"1 cm\", "
                 "\"2 cm\"]\n[[others]]\nwidth = \"3 mm\"\n[[others]]\nwidth = \"4 mm\"\n[loft]\nwidth = \"5 mm\"\n",
                 r);
        CHECK(found.empty());
        CHECK(r.title == "back");
        CHECK(near::relative(r.main_shelf.width, 25.5 * inch, 1e-15));
        CHECK(r.main_shelf.boards == 4);
        REQUIRE(r.main_shelf.lip);
        CHECK(near::relative(*r.main_shelf.lip, 12 * thou, 1e-15));
        REQUIRE(r.main_shelf.gaps.size() == 2);
        CHECK(near::relative(r.main_shelf.gaps[1], 20 * mm, 1e-15));
        REQUIRE(r.others.size() == 2);
        CHECK(near::relative(r.others[1].width, 4 * mm, 1e-15));
        REQUIRE(r.loft);
        CHECK(near::relative(r.loft->width, 5 * mm, 1e-15));
    }
    TEST_CASE("a key whose default is allowed may be left out, the others are asked for by name") {
        check_one("[main_shelf]\nboards = 2\n", 1, "\"main_shelf.width\" is missing; expected a length");
        check_one("title = \"x\"\n", 0, "\"main_shelf.width\" is missing");
    }
    TEST_CASE("each mistake says line, key, what stands there and what was expected") {
        check_one("[main_shelf]\nwidth = \"12\"\n", 2,
                  "main_shelf.width is \"12\"; expected a length as text with its unit (mm,");
        check_one("[main_shelf]\nwidth = \"12 furlongs\"\n", 2, "\"12 furlongs\"");
        check_one("[main_shelf]\nwidth = 12\n", 2, "is 12; expected a length");
        check_one("[main_shelf]\nwidth = nan\n", 2, "is not a number; expected a length");
        check_one("[main_shelf]\nwidth = \"-3 mm\"\n", 2, "is \"-3 mm\"; it must be more than 0 mm");
        check_one("[main_shelf]\nwidth = \"3 N\"\n", 2, "expected a length");
        check_one("[main_shelf]\nwidth = \"3 mm\"\nboards = 2.5\n", 3, "is 2.5; expected a whole number");
        check_one("[main_shelf]\nwidth = \"3 mm\"\nboards = 10\n", 3, "at most 9");
        check_one("[main_shelf]\nwidth = \"3 mm\"\nboards = 99999999999\n", 3, "expected a whole number");
        check_one("[main_shelf]\nwidth = \"3 mm\"\nlip = [1]\n", 3, "is a list; expected a length");
        check_one("[main_shelf]\nwidth = \"3 mm\"\ngaps = \"1 mm\"\n", 3, "expected a list");
        check_one("[main_shelf]\nwidth = \"3 mm\"\ngaps = [\"1 mm\", \"0 mm\"]\n", 3,
                  "gaps[1] is \"0 mm\"; it must be more than 0 mm");
        check_one("title = 3\n[main_shelf]\nwidth = \"3 mm\"\n", 1, "title is 3; expected text in quotes");
        check_one("others = [1]\n[main_shelf]\nwidth = \"3 mm\"\n", 1, "others[0] is 1; expected a section");
    }
    TEST_CASE("a plain number may have a give or take, in quotes") {
        for (const char* written : {"\"0.4 ± 0.3\"", "\"0.4 +- 0.3\""}) {
            room r;
            std::vector<mistake> found;
            job_file::file_notes notes;
            const toml::table table = toml::parse(std::string("[main_shelf]\nwidth = \"3 mm\"\nshare = ") + written + "\n");
            table_reader::read(table, "", r, found, notes);
            CHECK(found.empty());
            CHECK(r.main_shelf.share == 0.4);
            REQUIRE(notes.doubts.count("main_shelf.share") == 1);
            const any_quantity standard = notes.doubts.at("main_shelf.share");
            CHECK(standard.kind() == "number");
            CHECK(near::relative(standard.si(), 0.15, 1e-12));
        }
        check_one("[main_shelf]\nwidth = \"3 mm\"\nshare = \"0.4\"\n", 3, "expected a number");
        check_one("[main_shelf]\nwidth = \"3 mm\"\nshare = \"0.4 ± 0.3 mm\"\n", 3, "expected a number");
        check_one("[main_shelf]\nwidth = \"3 mm\"\nshare = \"1.4 ± 0.3\"\n", 3, "at most 1");
    }
    TEST_CASE("an unknown key is an error, with the nearest known one") {
        check_one("[main_shelf]\nwidth = \"3 mm\"\nbords = 2\n", 3,
                  "unknown key \"main_shelf.bords\"; did you mean \"boards\"?");
        check_one("[main_shelf]\nwidth = \"3 mm\"\n[attic_room_above]\n", 3, "unknown key \"attic_room_above\"");
    }
    TEST_CASE("all mistakes are reported, not the first") {
        room r;
        CHECK(read("title = 3\n[main_shelf]\nwidth = 4\nbords = 2\n[[others]]\n", r).size() == 4);
    }
    TEST_CASE("control characters of a file do not reach the terminal") {
        room r;
        const auto found = read("[main_shelf]\nwidth = \"\\u001b[31m\"\n\"a\\u0007b\" = 1\n", r);
        REQUIRE(found.size() == 2);
        for (const auto& m : found) {
            for (const char c : m.text) { CHECK(static_cast<unsigned char>(c) >= 0x20); }
        }
    }
}
