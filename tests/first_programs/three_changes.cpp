// A maker: a flat-top with a lower saddle, lower frets and a thinner first string: what becomes of the action?
// prints: over fret 12, string 1 (E4): 2.34 mm, was 2.51 mm
#include <cstdio>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    auto made = ready_made::flat_top();
    const auto before = solve(string_up(made));
    made.instrument.saddle.height_treble = made.instrument.saddle.height_treble - 0.5 * mm;
    set(made, "frets.wire.crown_height", "0.9 mm");
    set(made, "strings[5].gauge", 11 * thou);
    const auto after = solve(string_up(made));
    const auto& first = after.strings.back();
    std::printf("over fret 12, string 1 (E4): %s, was %s\n", to_text(first.heights[11], {.digits = 3}).c_str(),
                to_text(before.strings.back().heights[11], {.digits = 3}).c_str());
    for (const auto& change : compare(before, after)) {
        std::printf("%s: %s\n", change.words.c_str(), bench_text(change.by(), {.sign = true}).c_str());
        break;
    }
}
