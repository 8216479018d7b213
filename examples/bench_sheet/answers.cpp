#include "answers.hpp"

namespace bench_sheet {

tl::bench_work work_of(const read_job& job) {
    tl::bench_work work;
    work.strings = job.planned_strings;
    if (!job.planned) { return work; }
    work.sanding = job.planned->sanding;
    work.wire = job.planned->wire;
    work.levelling = job.planned->levelling;
    return work;
}

answers answer(const read_job& job) {
    answers a;
    const tl::strung_instrument found{job.found.instrument, job.strung};
    a.found = tl::solve(found.instrument, found.strung);
    a.objects = job.found.objects;
    a.planned = job.planned || job.wants;
    if (!a.planned) { return a; }
    const tl::bench_work work = work_of(job);
    a.work = tl::do_work(found, job.found.details, work);
    // A board line that is planned by hand speaks of a reset, beyond what the work moved.
    std::optional<tl::length<>> line_before;
    if (job.file.lines.count("planned.saddle.board_line") > 0) { line_before = a.work.on.instrument.saddle.board_line; }
    if (job.planned) {
        job.lay_plan_over(a.work.on.instrument);
        a.objects = job.planned->objects;
    }
    a.plan = tl::make_plan(a.work.on, job.found.wanted);
    if (job.file.lines.count("planned.objects") == 0) {
        // What lies on the body stays there while the board's line, from which its height is told, moves.
        for (named_object& o : a.objects) {
            if (a.work.removal) { o.shape.z = tl::height_after_sanding(*a.work.removal, o.shape.x, o.shape.z); }
            if (a.plan.reset) {
                const tl::reset done{.turn = a.plan.reset->turn,
                                     .leave = a.plan.reset->edge_cut,
                                     .edge_depth = job.found.wanted.reset->edge_depth};
                o.shape = tl::object_after_reset(a.plan.start.instrument, done, o.shape);
            }
        }
    }
    a.steps = tl::steps_of(a.found, a.work, work.wire.has_value(), a.plan, line_before);
    a.changes = tl::compare(a.found, a.plan.solved);
    return a;
}

} // namespace bench_sheet
