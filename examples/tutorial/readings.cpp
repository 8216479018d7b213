// Tutorial 5: the same instrument in the hand: what its readings say of what can hardly be measured.
#include <cstdio>
#include <tautline/doubt/reconciliation_words.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    const auto on = string_up(ready_made::flat_top());

    // What is doubtful of it: standard uncertainties, half of a give or take.
    const std::vector<doubt> doubts{{"modulus of the board", 2 * GPa, {{"neck.board_modulus"}}},
                                    {"modulus of the back", 2 * GPa, {{"neck.back_modulus"}}},
                                    {"pull of the rod", 100 * N, {{"neck.rod_pull"}}},
                                    {"line of the board at the saddle", 0.2 * mm, {{"saddle.board_line"}}}};
    const std::vector<reading> readings{relief_read(0.24 * mm), relief_read(-0.09 * mm).when("slack"),
                                        height_read(0, 12, 2.8 * mm, 0.1 * mm)};

    const auto said = reconcile(on, doubts, {}, readings);
    for (const auto& sentence : sentences_of(said)) { std::printf("%s\n", sentence.c_str()); }

    // A result that was not read is surer, too.
    const auto results = propagate(said.adjusted.at_pitch, said.doubts);
    const auto* action = find_result(results, "strings[5].heights[11]");
    std::printf("%s\n", sentence_of(said, "over fret 12, string 1", *action).c_str());
    for (const auto& next : readings_to_take({on, {}, {}, {}}, said, *action, {}, 1)) {
        std::printf("%s\n", sentence_of(next, "that height").c_str());
    }
}
