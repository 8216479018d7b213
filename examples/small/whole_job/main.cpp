// A whole job without a job file, the one of examples/jobs/ten_string_cittern.toml without its readings: a lower standard
// with another set, worn frets filed level, what is wanted. Numbers are estimates; where a failure would hurt someone, a
// qualified repairer decides.
#include <cstdio>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job.hpp>

using namespace tautline;
using namespace tautline::units;
int main() {
    bench_job j;
    j.instrument = ready_made::ten_string_cittern().instrument;
    j.strings = ready_made::ten_string_cittern().strings;
    j.planned = plan_as_found(j);
    j.planned->a4 = 415 * Hz;
    j.planned->levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.55 * mm};
    for (const ordered_string& one :
         {ordered_string{.note = "D2", .gauge = 58 * thou, .core = 19 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "A2", .gauge = 40 * thou, .core = 17 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "D3", .gauge = 30 * thou, .core = 14 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "A3", .gauge = 21 * thou, .core = 11 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "D4", .gauge = 15 * thou}}) {
        j.planned->strings.insert(j.planned->strings.end(), 2, one); // in pairs
    }
    j.wanted = wishes{.first_fret_bass = 0.55 * mm,
                      .first_fret_treble = 0.45 * mm,
                      .action_bass = 2.3 * mm,
                      .action_treble = 1.8 * mm,
                      .in_tune = true,
                      .lowest_saddle = 18.4 * mm};
    const job_answers a = answer(j);
    const auto numbers = named_numbers(a.setups);
    for (const asked_result& asked : asked_results(*j.wanted, a.setups.last())) {
        const auto found = find_number(numbers, "found." + asked.path),
                   planned = find_number(numbers, "planned." + asked.path);
        std::printf("%s %s %s\n", asked.name.c_str(), bench_text(found->value).c_str(), bench_text(planned->value).c_str());
    }
    for (const bench_step& step : a.steps) { std::printf("%s\n", step.title.c_str()); }
    for (const shortfall& f : a.setups.plan.shortfalls) { std::printf("not met: %s: %s\n", f.wish.c_str(), f.why.c_str()); }
}
