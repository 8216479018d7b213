// A repairer: what comes off a board when its arc of 200 mm becomes one of 300 mm?
// prints: off the centre line at the nut 0.32116 mm, at the end 0.493936 mm
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    reradius job;
    job.board = {.width_at_nut = 36 * mm,
                 .width_at_end = 46 * mm,
                 .board_length = 400 * mm,
                 .thickness = 6 * mm,
                 .surface = cylinder(200 * mm),
                 .scale = {.scale_length = 580 * mm, .frets = 18}};
    job.wanted = cylinder(300 * mm);
    job.allowance = 0.05 * mm;
    job.wire = {.crown_height = 1 * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    job.slot = {.depth = 2.2 * mm, .width = 0.58 * mm};
    const auto plan = plan_reradius(job);
    std::printf("off the centre line at the nut %s, at the end %s\n", to_text(plan.removal.at_nut).c_str(),
                to_text(plan.removal.at_end).c_str());
}
