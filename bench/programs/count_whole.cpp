// Runs a whole solve, plan or answer so many times, for an instruction counter: `count_whole solve 10`. Once more is run
// before, so that the difference of two runs is the warm work alone.
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <functional>

#include "../demo_job.hpp"
#include "../read_cittern.hpp"

int main(int argc, char** argv) {
    using namespace bench;
    const int times = argc > 2 ? std::atoi(argv[2]) : 0;
    const strung_instrument plain{make_instrument(6, 22), make_stringing(6)}, all = many_parts();
    double sum = 0;
    setup solved;
    const struct {
        const char* name;
        std::function<void()> once;
    } rows[] = {
        {"solve",
         [&] {
             solve(plain, solved);
             sum += solved.down_force.value();
         }},
        {"solve_everything",
         [&] {
             solve(all, solved);
             sum += solved.down_force.value();
         }},
        {"plan", [&] { sum += make_plan(all, every_wish()).solved.down_force.value(); }},
        {"gradient",
         [&, doubts = std::vector<doubt>(8)]() mutable {
             const char* const paths[] = {"saddle.height_bass",  "saddle.height_treble", "neck.board_modulus",
                                          "neck.back_modulus",   "board.thickness",      "neck.depth_at_nut",
                                          "neck.depth_at_joint", "saddle.board_line"};
             for (std::size_t k = 0; k < 8; ++k) {
                 doubts[k] = {paths[k], k == 2 || k == 3 ? any_quantity(1 * GPa) : any_quantity(0.1 * mm), {{paths[k]}}};
             }
             sum += propagate(plain, doubts).front().contributions.front();
         }},
        {"answer", [&, j = demo_job()] { sum += static_cast<double>(answer(j).steps.size()); }},
        {"answer_read", [&, j = demo_job_read()] { sum += static_cast<double>(answer(j).steps.size()); }},
        {"reconcile", [&, model = read_cittern(), doubts = twenty_doubts(),
                       readings = nine_readings()] { sum += reconcile(model, doubts, {}, readings).tests.square; }},
    };
    for (const auto& row : rows) {
        if (argc < 2) { std::printf("%s\n", row.name); }
        if (argc < 3 || std::strcmp(argv[1], row.name) != 0) { continue; }
        for (int i = 0; i <= times; ++i) { row.once(); }
        std::printf("%g\n", sum);
        return 0;
    }
    return argc < 2 ? 0 : 2;
}
