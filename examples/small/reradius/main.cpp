// What does a new radius take off the board, and what follows? An invented board for eight strings in four courses.
//
//   reradius ["wanted radius"]      reradius "260 mm"

#include <cstdio>
#include <exception>

#include <tautline/board/reradius.hpp>
#include <tautline/board/spacing.hpp>
#include <tautline/board/straightness.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/strings/string_names.hpp>
#include <tautline/strings/tuning.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

reradius four_courses(const length<double>& wanted) {
    reradius job{.board = {.width_at_nut = 32 * mm,
                           .width_at_end = 42 * mm,
                           .board_length = 405 * mm,
                           .thickness = 5.4 * mm,
                           .surface = cylinder(190 * mm),
                           .scale = {.scale_length = 560 * mm, .frets = 20}},
                 .wanted = cylinder(wanted),
                 .allowance = 0.08 * mm,
                 .slot = {.depth = 2.08 * mm, .width = 0.58 * mm},
                 .wire = {.crown_height = 1.1 * mm,
                          .crown_width = 2.0 * mm,
                          .tang_depth = 1.5 * mm,
                          .tang_thickness = 0.52 * mm,
                          .stud_width = 0.76 * mm},
                 .slot_clearance = 0.2 * mm,
                 .binding_height = 1.6 * mm,
                 .binding_thickness = 1.2 * mm,
                 .least_binding = 1.2 * mm,
                 .least_edge = 3.5 * mm,
                 .inlay_thickness = 1.3 * mm,
                 .least_inlay = 0.8 * mm};
    const std::vector<int> courses = {2, 2, 2, 2};
    const auto nut = string_places(spacing{.spread = 25.5 * mm, .courses = courses, .course_gap = 2.2 * mm});
    const auto bridge = string_places(spacing{.spread = 38 * mm, .courses = courses, .course_gap = 3 * mm});
    for (std::size_t i = 0; i < nut.size(); ++i) {
        job.paths.push_back({.y_at_nut = nut[i], .y_at_saddle = bridge[i], .x_at_saddle = 562 * mm});
    }
    return job;
}

void print_frets(const reradius& job, const basic_reradius_plan<double>& plan) {
    std::printf("              taken off               left                         slot\n");
    std::printf("fret     centre    edge     thickness   edge  binding  inlay   left   deepen by   (mm)\n");
    for (const auto& row : plan.rows) {
        const bool shown = row.fret <= 1 || row.fret % 3 == 0 || row.fret == job.board.scale.frets;
        if (!shown) { continue; }
        std::printf(row.fret == 0 ? " nut" : "%4d", row.fret);
        std::printf(" %10.2f %7.2f %13.2f %6.2f %8.2f", row.off_centre_line / mm, row.off_edge / mm,
                    row.thickness_left / mm, row.edge_left / mm, *row.binding_left / mm);
        if (row.fret == 0) {
            std::printf("\n");
            continue;
        }
        std::printf(" %6.2f %6.2f", *row.inlay_left / mm, row.slot_left / mm);
        if (row.slot_to_deepen > 0.0 * mm) {
            std::printf(" %11.2f\n", row.slot_to_deepen / mm);
        } else {
            std::printf("           -\n");
        }
    }
}

void print_strings(const basic_reradius_plan<double>& plan) {
    const string_names names{.courses = {2, 2, 2, 2}, .notes = parse_tuning("G2 G2 D3 D3 A3 A3 E4 E4").notes};
    std::printf("course and string, bass to treble           ");
    for (std::size_t i = 0; i < names.size(); ++i) { std::printf("%6s", names.label(i).c_str()); }
    std::printf("\nnut slot must follow by                     ");
    for (const auto& d : plan.nut_slot_drop) { std::printf("%6.2f", d / mm); }
    std::printf("  mm\nsaddle then comes down, same action at 12   ");
    for (const auto& d : plan.saddle_drop) { std::printf("%6.2f", d / mm); }
    std::printf("  mm\n");
}

} // namespace

int main(int argc, char** argv) try {
    const length<double> wanted = argc > 1 ? quantity_from_text<length<>>(argv[1], "radius wanted") : 260 * mm;
    const auto job = four_courses(wanted);
    const auto plan = plan_reradius(job);
    std::printf("Eight strings in four courses: board from %.0f mm to %.0f mm, clean-up %.2f mm\n\n",
                *job.board.surface.radius / mm, wanted / mm, job.allowance / mm);
    print_frets(job, plan);
    std::printf("\n");
    print_strings(plan);
    const auto before = hump_under(job.board.surface, job.paths[0], 0 * mm, job.board.board_length);
    const auto after = hump_under(job.wanted, job.paths[0], 0 * mm, job.board.board_length);
    std::printf("\nWood removed %.1f cm3. Hump under the outer strings: %.3f mm before, %.3f mm after.\n",
                plan.removed / mm3 / 1000, before.height / mm, after.height / mm);
    for (const auto& c : plan.cautions) { std::printf("! %s\n", sentence(c).c_str()); }
    std::printf(
        "Slacken and take off the strings first. Dust of hard tropical woods and shell needs extraction and a mask.\n"
        "Measure the slots of this board before sanding; where a board is thin, a qualified repairer decides.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
