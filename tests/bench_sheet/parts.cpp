// A table in parts, as several machines compute it: joined they are the whole, byte for byte.
#include <vector>

#include "run_program.hpp"

namespace {

using namespace program;

/// What the parts print, one behind the other.
std::string joined_parts(const std::string& asked, int count) {
    std::string text;
    for (int k = 1; k <= count; ++k) {
        const auto part = run(asked + " --part " + std::to_string(k) + "/" + std::to_string(count));
        CHECK_MESSAGE(part.code == 0, part.err);
        CHECK(has(part.out, "refused because") == (k == 1)); // the heading
        text += part.out;
    }
    return text;
}
std::size_t lines(const std::string& text) { return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')); }

} // namespace

TEST_SUITE("parts") {
    TEST_CASE("eight parts of a sweep are the whole") {
        const std::string sweep =
            four_courses + " --vary tailpiece.hinge_height '-14 mm' '-12 mm' 3 --vary neck.depth_at_nut '-1 mm' '22 mm' 9 "
                           "--table 'strings[7].notes[11].error' --table down_force";
        const auto whole = run(sweep + " --csv");
        REQUIRE_MESSAGE(whole.code == 0, whole.err);
        CHECK(lines(whole.out) == 28);
        CHECK(has(whole.out, "must be at least 1 mm")); // some rows are refused
        CHECK(joined_parts(sweep, 8) == whole.out);
        CHECK(joined_parts(sweep + " --csv", 1) == whole.out);
        CHECK(joined_parts(sweep, 30) == whole.out); // more parts than rows: some are empty
        const std::string file = scratch() + "/part.csv";
        CHECK(run(sweep + " --part 3/8 --out " + file).code == 0);
        CHECK(read_all(file) == run(sweep + " --part 3/8").out);
        CHECK(lines(read_all(file)) == 4); // rows 7 to 10 of 27
    }
    TEST_CASE("eight parts of a sample are its variants; another seed gives others") {
        const std::string sample = four_courses + " --sample 20 --table 'strings[7].heights[11]' --table relief.gap";
        const auto whole = run(sample + " --seed 5 --part 1/1");
        REQUIRE_MESSAGE(whole.code == 0, whole.err);
        CHECK(lines(whole.out) == 21);
        CHECK(whole.out.starts_with("variant,"));
        CHECK(joined_parts(sample + " --seed 5", 8) == whole.out);
        CHECK(joined_parts(sample + " --seed 6", 8) != whole.out);
        // A variant depends on seed and place alone, not on how many there are.
        const auto more =
            run(four_courses + " --sample 40 --table 'strings[7].heights[11]' --table relief.gap --seed 5 --part 1/2");
        CHECK(more.out == whole.out);
    }
    TEST_CASE("a part that cannot be written is not there") {
        const auto gone = run(four_courses + " --through a4 '440 Hz' --part 1/2 --out " + scratch() + "/none/part.csv");
        CHECK(gone.code == 1);
        CHECK(has(gone.err, "cannot write"));
    }
}
