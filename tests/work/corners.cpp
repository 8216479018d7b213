#include "corners.hpp"

#include <tautline/work/do_work.hpp>
#include <tautline/work/reset.hpp>

#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;
using corners::each_number;
using corners::everywhere;

namespace {

strung_instrument built() {
    strung_instrument s{demo::four_course(), demo::unison_pairs()};
    s.instrument.neck.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 140 * mm, .z = -0.1 * mm}, {.x = 280 * mm, .z = 0 * mm}};
    s.instrument.board.thickness_at_end = 5.2 * mm;
    s.instrument.feet =
        bridge_feet{.ahead = 5 * mm, .behind = 8 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
    return s;
}
board_details of_board() {
    return {.slot = slot{.depth = 1.9 * mm, .width = 0.6 * mm},
            .binding_height = 4 * mm,
            .binding_thickness = 1.5 * mm,
            .inlay_thickness = 1.2 * mm};
}
bench_work trued() {
    bench_work w;
    w.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::as_at_pitch, .allowance = 0.1 * mm};
    w.wire =
        fret_wire{.crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.8 * mm, .tang_thickness = 0.55 * mm};
    return w;
}
bench_work levelled() {
    bench_work w;
    w.levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.5 * mm};
    return w;
}
/// What came of work: its numbers, and the instrument as it stands then.
std::vector<double> told_of(const work_done& done) {
    std::vector<double> all;
    const auto put = [&](std::string_view, const auto& x) { all.push_back(number_of(x)); };
    const auto numbers = numbers_of(done);
    for_each_leaf(numbers, put);
    const auto solved = solve(done.after);
    for_each_leaf(solved, put);
    return all;
}

} // namespace

TEST_CASE("corners: work is done, or is told why not, wherever a number of the instrument lies") {
    each_number("trued", built(), [](const strung_instrument& on) { return told_of(do_work(on, of_board(), trued())); });
    each_number("levelled", built(),
                [](const strung_instrument& on) { return told_of(do_work(on, of_board(), levelled())); });
}
TEST_CASE("corners: work of any size, on a board of any details") {
    each_number("trued", trued(), [](const bench_work& w) { return told_of(do_work(built(), of_board(), w)); });
    each_number("levelled", levelled(), [](const bench_work& w) { return told_of(do_work(built(), of_board(), w)); });
    each_number("details", of_board(), [](const board_details& d) { return told_of(do_work(built(), d, trued())); });
}
TEST_CASE("corners: each step by itself") {
    const auto removal = least_removal(built().instrument.board, cylinder(400 * mm), 0.1 * mm);
    each_number("after_refret", *trued().wire, [](const fret_wire& wire) { return solve(after_refret(built(), wire)); });
    everywhere<length<>>("after_levelling",
                         [](auto cut) { return solve(after_levelling<double>(built(), std::vector<length<>>(19, cut))); });
    everywhere<length<>, length<>>("height_after_sanding",
                                   [&](auto x, auto z) { return height_after_sanding<double>(removal, x, z); });
    everywhere<length<>, length<>>("after_sanding", [&](auto nut, auto end) {
        auto off = removal;
        off.at_nut = nut;
        off.at_end = end;
        return solve(after_sanding<double>(built(), off));
    });
    everywhere<length<>>("after_sanding of another length", [&](auto end) {
        auto off = removal;
        off.board_length = end;
        return height_after_sanding<double>(off, 100 * mm, 0 * mm);
    });
}
TEST_CASE("corners: a neck is reset by any angle") {
    const reset by{.turn = 1 * deg, .leave = 0.5 * mm, .edge_depth = 10 * mm};
    each_number("after_reset", by, [](const reset& r) { return solve(after_reset<double>(built(), r)); });
    each_number("after_reset", built(), [&](const strung_instrument& on) { return solve(after_reset<double>(on, by)); });
    each_number("object_after_reset", by, [](const reset& r) {
        return object_after_reset<double>(built().instrument, r, {.x = 450 * mm, .z = -4 * mm, .extent = 20 * mm});
    });
    each_number("object_after_reset", flat_object{.x = 450 * mm, .z = -4 * mm, .extent = 20 * mm},
                [&](const flat_object& o) { return object_after_reset<double>(built().instrument, by, o); });
    everywhere<length<>, length<>>(
        "turn_of_board_line", [](auto from, auto to) { return turn_of_board_line<double>(built().instrument, from, to); });
}
