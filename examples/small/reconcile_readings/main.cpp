// What three readings of a strung instrument say of what can hardly be measured: its woods, its rod, the board's line.
//
// The instrument is the ready-made flat-top and nobody's; the readings are invented. Put your own in their place.

#include <cstdio>

#include <tautline/doubt/reconciliation_words.hpp>
#include <tautline/instrument/ready_made.hpp>

using namespace tautline;
using namespace tautline::units;

int main() try {
    const auto order = ready_made::flat_top();
    const strung_instrument on{order.instrument, string_up(order.strings, order.a4)};

    // How sure each measurement is: standard uncertainties, half of a give or take.
    const std::vector<doubt> doubts{{"modulus of the board", 2 * GPa, {{"neck.board_modulus"}}},
                                    {"modulus of the back", 2 * GPa, {{"neck.back_modulus"}}},
                                    {"pull of the rod", 100 * N, {{"neck.rod_pull"}}},
                                    {"line of the board at the saddle", 0.2 * mm, {{"saddle.board_line"}}},
                                    {"height of the saddle", 0.05 * mm, {{"saddle.height_bass"}, {"saddle.height_treble"}}},
                                    {"crowns", 0.01 * mm, {{"frets.wire.crown_height"}}}};
    // Strings are counted from the bass, from 0. Where no give or take is said the usual one is taken.
    const std::vector<reading> readings{relief_read(0.25 * mm), relief_read(-0.10 * mm).when("slack"),
                                        height_read(0, 12, 2.9 * mm, 0.1 * mm)};

    const auto found = reconcile(on, doubts, {}, readings);
    for (const auto& sentence : sentences_of(found)) { std::printf("%s\n", sentence.c_str()); }

    // Every result of the instrument is surer by the readings, those that were not read too.
    const auto results = propagate(found.adjusted.at_pitch, found.doubts);
    std::puts("");
    const struct {
        const char *path, *words;
    } asked[] = {{"strings[0].heights[11]", "height of the lowest string over fret 12"},
                 {"strings[5].heights[11]", "height of the highest string over fret 12"},
                 {"relief.gap", "relief"},
                 {"nut_rise", "rise of the nut under load"}};
    for (const auto& one : asked) {
        std::printf("%s\n", sentence_of(found, one.words, *find_result(results, one.path)).c_str());
    }

    // And what to read next for the action.
    std::puts("");
    const auto* action = find_result(results, "strings[5].heights[11]");
    for (const auto& next : readings_to_take({on, {}, {}, {}}, found, *action, {}, 2)) {
        std::printf("%s\n", sentence_of(next, "the highest string's height").c_str());
    }
    std::puts(
        "\nEstimates from measurements. Slacken strings before working and wear eye protection; where a failure would "
        "hurt\nsomeone or spoil an instrument of value, a qualified repairer decides.");
    return 0;
} catch (const invalid_input& wrong) {
    std::fprintf(stderr, "%s\n", wrong.what());
    return 2;
}
