// A maker: which wound strings on a core of 16 thou pull 70 N, and which gauge of a rule where core and gauge go together?
// prints: D3: 22.8 thou on that core, 23.4 thou by the rule
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    for (const char* note : {"E2", "A2", "D3"}) {
        const auto on_core = for_tension({.material = music_wire(), .diameter = 16 * thou}, phosphor_bronze(), 70 * N,
                                         645 * mm, pitch_of(note));
        const auto by_rule =
            for_tension(wound_rule{.core_material = music_wire(), .core_share = 0.4, .wrap_material = phosphor_bronze()},
                        70 * N, 645 * mm, pitch_of(note));
        std::printf("%s: %.1f thou on that core, %.1f thou by the rule\n", note, gauge(on_core.value()) / thou,
                    gauge(by_rule.value()) / thou);
    }
}
