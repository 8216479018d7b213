#pragma once
/// @file
/// Findings about a board whose edges are not alike.

#include <cmath>

#include "../core/to_text.hpp"
#include "../instrument/board_twist.hpp"
#include "setup.hpp"

namespace tautline {

/// In metres: a larger difference of a board's edges is told. A straightedge and a feeler show that much.
inline constexpr double told_apart = 0.05e-3;

/// What a twist does, in one sentence or two.
[[nodiscard]] inline std::string sentence_of(const board_twist& t, measures in = measures::metric) {
    const auto told = [&](const length<>& q) { return bench_text(q, {.units = in}); };
    const std::string where = messages::joined({"The slack board's ", t.apart.value() > 0 ? "treble" : "bass",
                                                " edge stands ", told(abs(t.apart)), " higher than the other, ",
                                                t.x.value() > 0 ? told(t.x) + " from" : std::string("at"), " the nut. "});
    if (std::abs((t.hollow_treble - t.hollow_bass).value()) < told_apart) {
        return messages::joined(
            {where, "Both edges are hollow alike: this twist moves heights (the outer strings at fret 12 by ",
             told(abs(t.moved_at_octave)), ", one up and one down) and not relief. A rod takes none of it out."});
    }
    return messages::joined({where, "The edges are bowed each in its own way, hollow by ", told(t.hollow_bass),
                             " at the bass and ", told(t.hollow_treble),
                             " at the treble: a rod bends both alike and cannot make both straight."});
}

namespace kernel {

template <class R>
void find_twist(const basic_instrument<R>& built, basic_setup<R>& out) {
    if (!built.neck.told_by_edges()) { return; }
    const basic_board_twist<R> found = kernel::twist_of(built);
    const auto plain = [](const length<R>& q) { return length<>::from_value(static_cast<double>(value_of(q.value()))); };
    const board_twist t{.x = plain(found.x),
                        .apart = plain(found.apart),
                        .hollow_bass = plain(found.hollow_bass),
                        .hollow_treble = plain(found.hollow_treble),
                        .moved_at_octave = plain(found.moved_at_octave)};
    if (!(std::abs(t.apart.value()) >= told_apart)) { return; }
    out.findings.push_back({.kind = finding_kind::board_twisted,
                            .severity = severity::note,
                            .number = t.apart,
                            .limit = length<double>(),
                            .beside = {t.x, t.hollow_bass, t.hollow_treble, t.moved_at_octave}});
}

} // namespace kernel

} // namespace tautline
