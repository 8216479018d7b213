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

namespace {

bool held_as_it_will_be(const tl::bench_work& work) {
    const auto held = [](const auto& part) { return part && part->held == tl::neck_held::as_it_will_be; };
    return held(work.sanding) || held(work.levelling);
}

/// Work on board and frets, what the file plans beside it, and the plan made from there.
void work_and_plan(const read_job& job, const tl::bench_work& work, const tl::bow* will_be, answers& a) {
    a.work = tl::do_work(tl::strung_instrument{job.found.instrument, job.strung}, job.found.details, work, will_be);
    a.objects = job.found.objects;
    // A board line that is planned by hand speaks of a reset, beyond what the work moved.
    if (job.file.lines.count("planned.saddle.board_line") > 0) { a.line_before = a.work.on.instrument.saddle.board_line; }
    if (job.planned) {
        job.lay_plan_over(a.work.on.instrument);
        a.objects = job.planned->objects;
    }
    tl::wishes wanted = job.found.wanted;
    // Held as it will be, the neck has its relief from the work whatever the rod is set to.
    if (held_as_it_will_be(work)) { wanted.relief.reset(); }
    a.plan = tl::make_plan(a.work.on, wanted);
    if (job.file.lines.count("planned.objects") > 0) { return; }
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

} // namespace

answers answer(const read_job& job) {
    answers a;
    const tl::strung_instrument found{job.found.instrument, job.strung};
    a.found = tl::solve(found.instrument, found.strung);
    a.objects = job.found.objects;
    a.planned = job.planned || job.wants;
    if (!a.planned) { return a; }
    const tl::bench_work work = work_of(job);
    work_and_plan(job, work, nullptr, a);
    if (held_as_it_will_be(work)) {
        // The jig holds the neck as the whole job will leave it, which the work itself moves a little.
        constexpr int rounds = 4;
        for (int round = 0; round < rounds; ++round) {
            const tl::bow will_be = a.plan.solved.bow;
            work_and_plan(job, work, &will_be, a);
        }
    }
    a.steps = tl::steps_of(a.found, a.work, work.wire.has_value(), a.plan, a.line_before);
    a.changes = tl::compare(a.found, a.plan.solved);
    return a;
}

} // namespace bench_sheet
