// One whole solve, and how it grows with strings, frets and stations of the neck.
#include <benchmark/benchmark.h>

#include <tautline/setup/solve.hpp>

namespace {

using namespace tautline;
using namespace tautline::units;

instrument make_instrument(int strings, int frets) {
    instrument i;
    i.board = {.width_at_nut = 46 * mm,
               .width_at_end = 58 * mm,
               .board_length = 560 * mm,
               .thickness = 6 * mm,
               .surface = cylinder(305 * mm),
               .scale = {.scale_length = 645 * mm, .frets = frets}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.0 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 14;
    i.neck.board_modulus = 14 * GPa;
    i.neck.back_modulus = 11 * GPa;
    i.nut.spacing = {.spread = 38 * mm, .courses = std::vector<int>(static_cast<std::size_t>(strings), 1)};
    i.nut.slot_heights = {1.5 * mm};
    i.saddle.spacing = {.spread = 54 * mm, .courses = i.nut.spacing.courses};
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    i.posts.assign(static_cast<std::size_t>(strings), {.along = 60 * mm, .across = 0 * mm, .height = 8 * mm});
    i.saddle.height_bass = 16 * mm;
    i.saddle.height_treble = 15 * mm;
    i.saddle.radius = 305 * mm;
    i.saddle.setback_bass = 3 * mm;
    i.saddle.setback_treble = 1 * mm;
    i.saddle.board_line = 8 * mm;
    i.tailpiece =
        basic_tailpiece<double>{.hinge_distance = 200 * mm, .hinge_height = -10 * mm, .reach = 110 * mm, .spread = 50 * mm};
    return i;
}
stringing make_stringing(int strings) {
    stringing s;
    for (int k = 0; k < strings; ++k) { s.strings.push_back({plain_string(music_wire(), 12 * thou), parse_note("E4")}); }
    return s;
}

void solve_again(benchmark::State& state, int strings, int frets, std::size_t stations) {
    const instrument i = make_instrument(strings, frets);
    const stringing s = make_stringing(strings);
    setup out;
    for (auto _ : state) {
        solve(i, s, out, stations);
        benchmark::DoNotOptimize(out.down_force);
    }
}

void whole_solve(benchmark::State& state) { solve_again(state, 6, 22, 200); }
BENCHMARK(whole_solve);

void solve_by_strings(benchmark::State& state) { solve_again(state, static_cast<int>(state.range(0)), 22, solve_stations); }
BENCHMARK(solve_by_strings)->RangeMultiplier(2)->Range(3, 24);

void solve_by_frets(benchmark::State& state) { solve_again(state, 6, static_cast<int>(state.range(0)), solve_stations); }
BENCHMARK(solve_by_frets)->Arg(14)->Arg(18)->Arg(22)->Arg(24);

void solve_by_stations(benchmark::State& state) { solve_again(state, 6, 22, static_cast<std::size_t>(state.range(0))); }
BENCHMARK(solve_by_stations)->RangeMultiplier(2)->Range(25, 400);

void solve_with_one_derivative(benchmark::State& state) {
    using D = dual<double, 1>;
    const auto i = over<D>(make_instrument(6, 22));
    const auto s = over<D>(make_stringing(6));
    basic_setup<D> out;
    for (auto _ : state) {
        solve(i, s, out);
        benchmark::DoNotOptimize(out.down_force);
    }
}
BENCHMARK(solve_with_one_derivative);

} // namespace
