#include "found_and_wished.hpp"

#include <algorithm>

#include <tautline/setup/solve.hpp>

namespace wholes {

using namespace tautline;
using namespace tautline::units;

std::optional<whole> set_otherwise(const whole& w, rod_too rod) {
    whole other = w;
    auto& i = other.built;
    const double a = w.from.wish / 50.0 - 1, b = w.from.more / 50.0 - 1, c = w.from.other / 50.0 - 1; // -1 to 1
    for (auto& slot : i.nut.slot_heights) { slot = slot + (0.1 + 0.2 * a) * mm; }
    raise_saddle(i.saddle, (0.3 + 0.6 * b) * mm, (0.3 + 0.6 * c) * mm);
    if (i.tailpiece) { i.tailpiece->hinge_height = i.tailpiece->hinge_height + 5 * a * mm; }
    if (i.neck.rod && rod == set_rod) {
        const double share = i.neck.rod->two_way() ? b : (1 + b) / 2;
        const double scale = std::max(100.0, std::abs(i.neck.pull_of_rod() / N));
        i.neck.rod_pull = 1.3 * scale * share * N;
    }
    try {
        if (!validate(strung_instrument{i, other.stringing}).empty()) { return std::nullopt; }
        (void)solve(strung_instrument{i, other.stringing});
    } catch (const invalid_input&) { return std::nullopt; }
    return other;
}

bool wish_heights(const whole& w, wishes& wish) {
    const int frets = w.built.board.scale.frets;
    if (frets < 4) { return false; }
    wish.action_fret = w.from.other % 3 == 0 ? std::min(12, frets) : 3 + w.from.other % (frets - 2);
    if (*wish.action_fret > frets) { return false; }
    const auto s = solve(strung_instrument{w.built, w.stringing});
    const auto fret = static_cast<std::size_t>(*wish.action_fret) - 1;
    for (const auto& one : s.strings) {
        const bool clear = one.heights[0] > 0.05 * mm && one.heights[fret] > one.gauge * 0.55 && one.heights[0] < 25 * mm &&
                           one.heights[fret] < 25 * mm;
        if (!clear) { return false; }
    }
    wish.first_fret_bass = s.strings.front().heights[0];
    wish.first_fret_treble = s.strings.back().heights[0];
    wish.action_bass = s.strings.front().heights[fret];
    wish.action_treble = s.strings.back().heights[fret];
    return true;
}

force<> most_pull(const whole& w) { return 2 * abs(w.built.neck.pull_of_rod()) + 300 * N; }

std::vector<pulled> reliefs_over_pulls(const whole& w, double least, double most, int steps) {
    std::vector<pulled> all;
    whole at = w;
    setup s;
    try {
        for (int k = 0; k <= steps; ++k) {
            const double pull = least + (most - least) * k / steps;
            at.built.neck.rod_pull = pull * N;
            solve(strung_instrument{at.built, at.stringing}, s);
            all.push_back({pull, s.relief->gap.value()});
        }
    } catch (const invalid_input&) { return {}; }
    return all;
}

} // namespace wholes
