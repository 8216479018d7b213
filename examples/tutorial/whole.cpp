// Tutorial 4: a whole ready-made instrument: changed, solved, planned, explained.
#include <cstdio>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    // As found: the flat-top with a saddle that somebody cut 0.4 mm lower.
    auto made = ready_made::flat_top();
    const auto before = solve(string_up(made));
    made.instrument.saddle.height_bass -= 0.4 * mm;
    made.instrument.saddle.height_treble -= 0.4 * mm;
    const auto found = solve(string_up(made));
    std::printf("over fret 12, string 6: %s, before %s\n", bench_text(found.strings[0].heights[11]).c_str(),
                bench_text(before.strings[0].heights[11]).c_str());

    // Planned: a lighter set, and the action that the player wants with it.
    bench_job job;
    job.instrument = made.instrument;
    job.strings = made.strings;
    job.planned = plan_as_found(job);
    job.planned->strings = made.strings;
    for (auto& string : job.planned->strings) { string.gauge = string.gauge * 0.92; }
    job.wanted = wishes{.first_fret_bass = 0.55 * mm,
                        .first_fret_treble = 0.4 * mm,
                        .action_bass = 2.4 * mm,
                        .action_treble = 1.9 * mm,
                        .in_tune = true};
    const auto answers = answer(job);
    for (const auto& step : answers.steps) { std::printf("%s\n", step.title.c_str()); }
    for (const auto& short_of : answers.setups.plan.shortfalls) {
        std::printf("not met: %s: %s\n", short_of.wish.c_str(), short_of.why.c_str());
    }
    for (const auto& change : leading_changes(answers.changes)) {
        std::printf("%s: %s to %s\n", change.words.c_str(), bench_text(change.found).c_str(),
                    bench_text(change.planned).c_str());
    }

    // Explained: which inputs move the relief most?
    const auto why = explain(string_up(made), "relief.gap");
    std::printf("relief %s; one hundredth more of\n", bench_text(why.value).c_str());
    for (std::size_t i = 0; i < 3; ++i) {
        std::printf("  %-24s gives %+.4f mm\n", why.inputs[i].path.c_str(),
                    why.inputs[i].for_one_percent().as<length<>>() / mm);
    }
}
