#pragma once
/// @file
/// What a re-radius plan warns of: one warning for each run of neighbouring frets, and its sentence for the bench.

#include <cstdio>
#include <string>
#include <vector>

#include "../core/invalid_input.hpp"

namespace tautline {

/// What a plan warns of.
enum class reradius_warning { slot_too_shallow, slot_gone, binding_limit, edge_limit, inlay_limit, not_cleaned_up };

/// One warning for a run of neighbouring frets: where it is, what is left at the worst fret, and how much should be
/// left.
template <class R = double>
struct basic_reradius_caution {
    reradius_warning what{}; ///< what is short
    int from_fret = 0;       ///< 0: the nut
    int to_fret = 0;         ///< the last of the run
    int worst_fret = 0;      ///< where the least is left
    length<R> left{};        ///< there
    length<R> wanted{};      ///< what should be left
};
using reradius_caution = basic_reradius_caution<double>;

namespace kernel {

/// Adds a warning, or lengthens the run of the same warning that ends one fret before.
template <class R>
void warn(std::vector<basic_reradius_caution<R>>& cautions, reradius_warning what, int fret, const length<R>& left,
          const length<R>& wanted) {
    for (auto& c : cautions) {
        if (c.what != what || c.to_fret + 1 != fret) { continue; }
        c.to_fret = fret;
        if (in_any_lane(is_less(left, c.left))) {
            c.left = left;
            c.worst_fret = fret;
        }
        return;
    }
    cautions.push_back({what, fret, fret, fret, left, wanted});
}

/// A fret as a sentence names it; 0 is the nut.
[[nodiscard]] inline std::string fret_or_nut(int fret) {
    return fret == 0 ? messages::joined({"the nut"}) : messages::joined({"fret ", fret});
}

} // namespace kernel

/// A warning in a sentence for the bench.
template <class R = double>
[[nodiscard]] std::string sentence(const basic_reradius_caution<R>& c) {
    const auto text = [](const length<R>& q) {
        char buffer[32];
        std::snprintf(buffer, sizeof buffer, "%.2f mm", static_cast<double>(value_of(q.value())) * 1e3);
        return std::string(buffer);
    };
    const bool run = c.from_fret != c.to_fret;
    std::string where =
        run ? messages::joined({"From ", kernel::fret_or_nut(c.from_fret), " to ", kernel::fret_or_nut(c.to_fret)})
            : messages::joined({"At ", kernel::fret_or_nut(c.from_fret)});
    const std::string worst = run ? messages::joined({" (at ", kernel::fret_or_nut(c.worst_fret), ")"}) : std::string();
    const std::string left = messages::joined({text(c.left), worst}),
                      less_than = messages::joined({", less than ", text(c.wanted)});
    switch (c.what) {
    case reradius_warning::slot_too_shallow:
        return messages::joined(
            {where, " slots are left as shallow as ", left, "; the wire needs ", text(c.wanted), ": deepen them."});
    case reradius_warning::slot_gone:
        return messages::joined({where, " slots are sanded away: cut them anew, ", text(c.wanted), " deep."});
    case reradius_warning::binding_limit:
        return messages::joined({where, " the binding is left ", left, " high", less_than, "."});
    case reradius_warning::edge_limit:
        return messages::joined({where, " the edge of the board is left ", left, " high", less_than, "."});
    case reradius_warning::inlay_limit:
        return messages::joined({where, " inlay is left ", left, " thick", less_than, "."});
    case reradius_warning::not_cleaned_up:
        return messages::joined(
            {where, " the wanted surface stands up to ", text(-c.left), worst, " above the board: it does not clean up."});
    }
    return where;
}

} // namespace tautline
