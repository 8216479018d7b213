// The exercises of docs/tutorial.md, answered: tutorial_answers 1a ... 5b
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <tautline/doubt/reconciliation_words.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

// 1a: the gauge that pulls 60 N.
void gauge_for_60_n() {
    const auto string = for_tension(music_wire(), 60 * N, 645 * mm, pitch_of("E4"));
    std::printf("%.3f mm, %.2f thou\n", gauge(string) / mm, gauge(string) / thou);
}
// 1b: how far the pitch sinks when the string warms by 10 degrees between fixed ends. Steel's expansion, 11.5e-6 for each
// degree, is a usual handbook figure, from memory.
void warmer() {
    const auto string = plain_string(music_wire(), 12 * thou);
    const auto pull = tension(string, 645 * mm, pitch_of("E4"));
    const auto lost = pull / strain(string, pull) * 11.5e-6 * 10;
    std::printf("%.1f N of %.1f N, %.0f cents\n", lost / N, pull / N,
                interval_between(pitch_of("E4"), pitch_at(string, 645 * mm, pull - lost)) / cents);
}
// 2a: the rule of eighteen at frets 5 and 12.
void rule_of_eighteen() {
    scale old{.scale_length = 645 * mm, .frets = 12};
    old.divisor = 18;
    const auto places = fret_positions(old);
    for (const int fret : {5, 12}) {
        std::printf("fret %d: %.2f mm, equal steps %.2f mm\n", fret, places[static_cast<std::size_t>(fret)] / mm,
                    equal_step_position(645 * mm, fret) / mm);
    }
}
// 2b: the nut of the fan when fret 12 is square instead of fret 7.
void square_at_twelve() {
    for (const double square : {7.0, 12.0}) {
        const fan f{.bass_scale = 670 * mm,
                    .treble_scale = 645 * mm,
                    .square_fret = square,
                    .frets = 20,
                    .y_bass_at_nut = -18.5 * mm,
                    .y_treble_at_nut = 18.5 * mm,
                    .y_bass_at_saddle = -27 * mm,
                    .y_treble_at_saddle = 27 * mm};
        std::printf("square at fret %.0f: the nut leans %.1f deg, the saddle %.1f deg\n", square,
                    fret_angle(fret_line(f, 0)) / deg, fret_angle(saddle_line(f)) / deg);
    }
}

neck wood_of(const length<>& depth_at_nut) {
    neck wood;
    wood.joint = equal_step_position(645 * mm, 14);
    wood.stations = {
        {.x = 0 * mm, .half_width = 22 * mm, .board_thickness = 6 * mm, .back_depth = depth_at_nut},
        {.x = wood.joint, .half_width = 26.5 * mm, .board_thickness = 6 * mm, .back_depth = depth_at_nut + 4 * mm}};
    wood.board_modulus = 14 * GPa;
    wood.back_modulus = 10.5 * GPa;
    return wood;
}
relief_case question_of(const force<>& pull_of_all) {
    relief_case question{.last = 13};
    for (int fret = 1; fret <= 14; ++fret) {
        question.crests.push_back({.x = equal_step_position(645 * mm, fret), .z = 1 * mm});
    }
    question.strings = {{.pull = pull_of_all, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 645 * mm}};
    return question;
}
// 3a: the back one millimetre thicker.
void thicker() {
    for (const auto& depth : {15 * mm, 16 * mm}) {
        std::printf("%.0f mm under the board: relief %.2f mm\n", depth / mm,
                    relief_under(make_beam(wood_of(depth)), question_of(730 * N)).gap / mm);
    }
}
// 3b: how much pull keeps the relief at 0.20 mm.
void pull_for_relief() {
    const auto most = heaviest_strings(make_beam(wood_of(15 * mm)), question_of(730 * N), 0.20 * mm);
    if (most) { std::printf("%.0f N\n", most->pull / N); }
}

// 4a: the first string a thousandth of an inch thicker.
void thicker_first() {
    auto made = ready_made::flat_top();
    const auto before = solve(string_up(made));
    set(made, "strings[5].gauge", 13 * thou);
    for (const auto& change : leading_changes(compare(before, solve(string_up(made))))) {
        std::printf("%s: %s to %s\n", change.words.c_str(), bench_text(change.found).c_str(),
                    bench_text(change.planned).c_str());
    }
}
// 4b: the same wishes, with a saddle that stops at 11.8 mm.
void saddle_that_stops() {
    const auto made = ready_made::flat_top();
    bench_job job;
    job.instrument = made.instrument;
    job.strings = made.strings;
    job.planned = plan_as_found(job);
    job.wanted = wishes{.action_bass = 1.9 * mm, .action_treble = 1.4 * mm, .lowest_saddle = 11.8 * mm};
    for (const auto& short_of : answer(job).setups.plan.shortfalls) {
        std::printf("not met: %s: %s\n", short_of.wish.c_str(), short_of.why.c_str());
    }
}

void reconciled(const std::vector<reading>& readings) {
    const std::vector<doubt> doubts{{"modulus of the board", 2 * GPa, {{"neck.board_modulus"}}},
                                    {"modulus of the back", 2 * GPa, {{"neck.back_modulus"}}},
                                    {"pull of the rod", 100 * N, {{"neck.rod_pull"}}},
                                    {"line of the board at the saddle", 0.2 * mm, {{"saddle.board_line"}}}};
    const auto said = reconcile(string_up(ready_made::flat_top()), doubts, {}, readings);
    for (const auto& sentence : sentences_of(said)) { std::printf("%s\n", sentence.c_str()); }
}
// 5a: without the reading of the height.
void without_the_height() { reconciled({relief_read(0.24 * mm), relief_read(-0.09 * mm).when("slack")}); }
// 5b: with a slip: 3.8 mm for 2.8 mm.
void with_a_slip() {
    reconciled({relief_read(0.24 * mm), relief_read(-0.09 * mm).when("slack"), height_read(0, 12, 3.8 * mm, 0.1 * mm)});
}

constexpr struct {
    const char* name;
    void (*tell)();
} answers[] = {{"1a", gauge_for_60_n},
               {"1b", warmer},
               {"2a", rule_of_eighteen},
               {"2b", square_at_twelve},
               {"3a", thicker},
               {"3b", pull_for_relief},
               {"4a", thicker_first},
               {"4b", saddle_that_stops},
               {"5a", without_the_height},
               {"5b", with_a_slip}};

} // namespace

int main(int count, char** arguments) try {
    for (const auto& one : answers) {
        if (count == 2 && std::strcmp(arguments[1], one.name) == 0) {
            one.tell();
            return 0;
        }
    }
    std::fputs("one of 1a 1b 2a 2b 3a 3b 4a 4b 5a 5b\n", stderr);
    return 2;
} catch (const invalid_input& wrong) {
    std::fprintf(stderr, "%s\n", wrong.what());
    return 2;
}
