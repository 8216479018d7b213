// A repairer: a thin board with shallow slots from 7 1/4 inch to a cone: what comes off, and what runs short?
// prints: nut: off the centre line 0.37 mm, off the edge 0.00 mm
// prints: slots are left as shallow as 0.38 mm (at fret 21); the wire needs 1.60 mm: deepen them.
#include <cstdio>
#include <tautline/board/reradius.hpp>
#include <tautline/core/to_text.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    reradius job;
    job.board.width_at_nut = 1.75 * inch;
    job.board.width_at_end = 2.25 * inch;
    job.board.board_length = 18 * inch;
    job.board.thickness = 0.2 * inch;
    job.board.surface.radius = 7.25 * inch;
    job.board.scale.scale_length = 25.5 * inch;
    job.board.scale.frets = 21;
    job.wanted = cone(10 * inch, 16 * inch, 18 * inch);
    job.slot = {.depth = 1.6 * mm, .width = 0.6 * mm};
    job.wire = {.crown_height = 1.2 * mm, .crown_width = 2.7 * mm, .tang_depth = 1.6 * mm};
    const auto plan = plan_reradius(job);
    const auto& nut = plan.rows.front();
    std::printf("nut: off the centre line %s, off the edge %s\n", bench_text(nut.off_centre_line).c_str(),
                bench_text(nut.off_edge).c_str());
    for (const auto& caution : plan.cautions) { std::printf("%s\n", sentence(caution).c_str()); }
}
