// An afternoon with a neck: a weight, a dial, a feeler gauge and a key for the rod say what its woods are, how far the
// model is off, and print it as rows that can be compared with other necks.
//
// How it is measured stands in docs/how-to.md ("Measure a neck"). The instrument is the ready-made flat-top with woods by
// name, and nobody's; the readings are invented. Put your own in their place.

#include <cstdio>
#include <string>

#include <tautline/doubt/reconciliation_words.hpp>
#include <tautline/doubt/wood_doubt.hpp>
#include <tautline/instrument/ready_made.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

/// A number of one kind of thing in millimetres, moduli in GPa: what the rows are told in.
std::string told(const any_quantity& q) {
    char text[32];
    const bool modulus = q.kind() == "stress";
    std::snprintf(text, sizeof text, modulus ? "%.1f GPa" : "%.3f mm", q.si() * (modulus ? 1e-9 : 1e3));
    return text;
}

/// A reading by the name that its taker gives it.
reading called(const char* name, reading r) {
    r.name = name;
    return r;
}

} // namespace

int main() try {
    const wood board = woods::named("Indian rosewood"), back = woods::named("Honduras mahogany");
    for (const wood& w : {board, back}) {
        if (const auto caution = woods::caution_of(w); !caution.empty()) { std::printf("%s\n", caution.c_str()); }
    }

    // The neck as calipers tell it, the woods as their names tell them, the rod loose.
    auto order = ready_made::flat_top();
    order.instrument.neck.board_modulus = board.modulus().value();
    order.instrument.neck.back_modulus = back.modulus().value();
    order.instrument.neck.rod_pull = 0 * N;
    read_instrument bench{{order.instrument, string_up(order.strings, order.a4)}, {}, {}, {}};
    bench.rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm, .anchor_give = 5 * mm};
    // 2 kg at the nut. What fret 7 drops under it the nut would drop under the same weight at fret 7, which is how it is
    // told.
    const auto two_kilograms = 2 * 9.81 * N;
    bench.states = {{.name = "2 kg at the nut, dial at the nut", .slack = true, .weight = two_kilograms},
                    {.name = "2 kg at the nut, dial at fret 7", .slack = true, .weight = two_kilograms, .at_fret = 7},
                    {.name = "at pitch, a quarter turn", .rod_turns = 0.25},
                    {.name = "at pitch, half a turn", .rod_turns = 0.5}};

    const std::vector<doubt> doubts{modulus_doubt(board, "neck.board_modulus"),
                                    modulus_doubt(back, "neck.back_modulus"),
                                    {"give of the rod's anchors", 5 * mm, {{"rod_screw.anchor_give"}}},
                                    {"depth of the rod", 0.5 * mm, {{"neck.rod.z_ends"}}},
                                    {"depth of the neck at the nut", 0.1 * mm, {{"neck.depth_at_nut"}}},
                                    {"depth of the neck at the joint", 0.1 * mm, {{"neck.depth_at_joint"}}},
                                    {"straightness of the board", 0.02 * mm, {{"neck.set[1].z"}}}};
    bench.at_pitch.instrument.neck.set = {{0 * mm, 0 * mm}, {170 * mm, -0.15 * mm}, {357 * mm, 0 * mm}};
    const std::vector<reading> readings{
        called("drop of the nut", nut_drop_read(0.70 * mm, 0.02 * mm).when(bench.states[0].name)),
        called("drop of fret 7", nut_drop_read(0.13 * mm, 0.02 * mm).when(bench.states[1].name)),
        called("relief, slack", relief_read(0.14 * mm, 0.03 * mm).when("slack")),
        called("relief at pitch", relief_read(0.46 * mm, 0.03 * mm)),
        called("relief, a quarter turn", relief_read(0.28 * mm, 0.03 * mm).when(bench.states[2].name)),
        called("relief, half a turn", relief_read(0.10 * mm, 0.03 * mm).when(bench.states[3].name))};

    const auto found = reconcile(bench, doubts, {}, readings);
    for (const auto& sentence : sentences_of(found)) { std::printf("%s\n", sentence.c_str()); }

    // One row a reading, one an input. "By name" is what the model said before: that is the outside test.
    std::puts("\n| what | read | +- | by name | off | with all readings |\n|---|---|---|---|---|---|");
    for (const auto& r : found.readings) {
        const auto off = r.value - r.expected;
        std::printf("| %s | %s | %s | %s | %s | %s |\n", r.words.c_str(), told(r.value).c_str(),
                    told(2 * r.standard).c_str(), told(r.expected).c_str(), told(off).c_str(), told(r.found).c_str());
    }
    for (const auto& i : found.inputs) {
        std::printf("| %s | | | %s +- %s | | %s +- %s |\n", i.name.c_str(), told(i.as_read).c_str(),
                    told(2 * i.before).c_str(), told(i.found).c_str(), told(2 * i.after).c_str());
    }
    std::printf(
        "\nWoods: %s, %s. With the rows go: the neck's measures, the season's humidity, how long each load hung, the "
        "date.\n",
        std::string(board.name).c_str(), std::string(back.name).c_str());
    std::puts(
        "\nEstimates from measurements. Slacken strings before working and wear eye protection; where a failure would "
        "hurt\nsomeone or spoil an instrument of value, a qualified repairer decides.");
    return 0;
} catch (const invalid_input& wrong) {
    std::fprintf(stderr, "%s\n", wrong.what());
    return 2;
}
