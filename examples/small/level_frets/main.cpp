// Level these frets with the least metal lost: which get cut, what crown is left, which one holds the rest down?
// Invented heights of twenty crests, measured along the outer courses of an octave mandolin.

#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>

#include <tautline/board/levelling_plan.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

/// Heights in hundredths of a millimetre over one surface plate.
crest_line heights_along(double y_at_nut, double y_at_saddle, std::initializer_list<int> heights) {
    crest_line line{.path = {.y_at_nut = y_at_nut * mm, .y_at_saddle = y_at_saddle * mm, .x_at_saddle = 562 * mm}};
    int fret = 0;
    for (const int h : heights) { line.crests.push_back({.fret = ++fret, .height = 0.01 * h * mm}); }
    return line;
}

/// The board with a new fret in the worst place, high enough to be ground down to the others.
levelling with_new_fret(levelling job, int fret) {
    for (auto& line : job.lines) {
        for (auto& c : line.crests) {
            if (c.fret == fret) { c.height += 0.5 * mm; }
        }
    }
    return job;
}

void print_totals(const char* when, const levelling& job, int new_fret) {
    const auto plan = plan_levelling(job);
    length<double> cut{};
    int below = 0;
    for (const auto& c : plan.crests) { cut += c.fret == new_fret ? 0.0 * mm : c.cut; }
    for (const auto& f : plan.frets) { below += f.replace && f.fret != new_fret; }
    std::printf("%s: %.2f mm cut over all old crests, %d frets left too low.%s\n", when, cut / mm, below,
                plan.other_surfaces ? " Another surface may need as little." : "");
}

} // namespace

int main() try {
    levelling job{.scale = {.scale_length = 560 * mm, .frets = 20},
                  .lines = {heights_along(-12, -18, {2, 1, 3, 0, 2, 1, -9, 2, 3, 2, 1, 4, 3, 5, 4, 6, 7, 6, 8, 9}),
                            heights_along(12, 18, {1, 0, 2, -3, -2, 1, -12, 0, 2, 1, 2, 2, 4, 3, 5, 4, 6, 7, 7, 8})},
                  .crown = 0.85 * mm,
                  .least_crown = 0.7 * mm,
                  .fall_away_from = 12,
                  .fall_away = 0.1 * mm};
    const auto plan = plan_levelling(job);

    std::printf("Straight to fret 12, then falling away %.2f mm to fret %d; crowns %.2f mm now, too low below %.2f mm.\n\n",
                job.fall_away / mm, job.scale.frets, job.crown / mm, job.least_crown / mm);
    std::printf("        cut, mm           least crown\n");
    std::printf("fret   bass   treble      left, mm\n");
    for (const auto& f : plan.frets) {
        std::printf("%4d", f.fret);
        for (const auto& c : plan.crests) {
            if (c.fret == f.fret) { std::printf("  %6.3f", c.cut / mm); }
        }
        std::printf("  %10.2f", f.least_crown_left / mm);
        if (f.holds_down) { std::printf("      holds the rest down: a new one saves %.2f mm", f.saved_if_replaced / mm); }
        if (f.replace) { std::printf("      too low"); }
        std::printf("\n");
    }
    const auto worst = std::max_element(plan.frets.begin(), plan.frets.end(), [](const auto& a, const auto& b) {
        return a.saved_if_replaced < b.saved_if_replaced;
    });
    std::printf("\n");
    print_totals("Levelled as it is", job, 0);
    print_totals(("With a new fret " + std::to_string(worst->fret)).c_str(), with_new_fret(job, worst->fret), worst->fret);
    std::printf("\nSlacken the strings and hold the neck as it was measured. Wear glasses; keep metal dust off skin and "
                "out of the\n"
                "instrument. A neck that moves when its strings come off is for a qualified repairer to judge.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
