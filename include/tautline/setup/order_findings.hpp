#pragma once
/// @file
/// Asks about an order of strings and posts that may be meant but seldom is, and about strings that have no room.

#include <algorithm>
#include <cmath>

#include "../instrument/string_order.hpp"
#include "setup.hpp"

namespace tautline {

namespace kernel {

/// Asks about a re-entrant tuning, and about gauges whose order is the reverse of the notes' order.
template <class R>
void find_set_order(basic_setup<R>& out) {
    const auto hertz = [&](std::size_t i) { return static_cast<double>(value_of(out.strings[i].pitch.value())); };
    const auto metres = [&](std::size_t i) { return static_cast<double>(value_of(out.strings[i].gauge.value())); };
    std::optional<std::size_t> before, re_entrant, lower;
    bool against = out.names.courses.size() >= 3, falls = against;
    for_each_course(out.names.courses, [&](std::size_t first, std::size_t last) {
        std::size_t lowest = first;
        for (std::size_t i = first; i < last; ++i) { lowest = hertz(i) < hertz(lowest) ? i : lowest; }
        if (before) {
            falls = falls && hertz(lowest) < hertz(*before);
            against = against && hertz(*before) < hertz(lowest) && metres(*before) < metres(lowest);
            if (!re_entrant && hertz(lowest) < hertz(*before)) {
                re_entrant = before;
                lower = lowest;
            }
        }
        before = lowest;
    });
    if (falls) {
        out.findings.push_back({.kind = finding_kind::listed_treble_first, .severity = severity::warning});
    } else if (re_entrant) {
        out.findings.push_back({.kind = finding_kind::re_entrant_tuning,
                                .severity = severity::note,
                                .string_index = re_entrant,
                                .other_index = lower,
                                .number = frequency<double>::from_value(hertz(*re_entrant)),
                                .limit = frequency<double>::from_value(hertz(*lower))});
    }
    if (against) { out.findings.push_back({.kind = finding_kind::gauges_against_notes, .severity = severity::warning}); }
}

/// Tells the first pair of strings that cross, and how many pairs do. The first of a pair is one of `from` to `to`, the
/// other comes after it, up to `count`. `crossed(first, other)` tells whether they do.
template <class R, class Crossed>
void tell_crossings(std::size_t from, std::size_t to, std::size_t count, std::string_view part, basic_setup<R>& out,
                    Crossed&& crossed) {
    std::size_t pairs = 0, one = 0, other = 0;
    for (std::size_t i = from; i < to; ++i) {
        for (std::size_t k = i + 1; k < count; ++k) {
            if (crossed(i, k) && pairs++ == 0) {
                one = i;
                other = k;
            }
        }
    }
    if (pairs == 0) { return; }
    out.findings.push_back({.kind = finding_kind::strings_cross,
                            .severity = severity::warning,
                            .string_index = one,
                            .other_index = other,
                            .beside = {static_cast<double>(pairs)},
                            .part = part});
}

/// Asks about strings that cross between the nut and their posts: the posts may be listed in the wrong order, or
/// mirrored.
template <class R>
void find_crossings(std::size_t first_at_nut, basic_setup<R>& out) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    const auto across_at = [&](std::size_t i, double x) {
        const auto &first = out.behind_nut[i], &post = out.posts[i];
        const double nut = number(out.strings[i].y_at_nut);
        if (!(x < number(first.x))) { return nut + (number(first.y) - nut) * (x / number(first.x)); }
        const double share = (x - number(first.x)) / (number(post.x) - number(first.x));
        return number(first.y) + (number(post.y) - number(first.y)) * share;
    };
    constexpr double plainly = 1e-3; // in metres: places of posts are measured to a millimetre
    tell_crossings<R>(first_at_nut, out.posts.size(), out.posts.size(), "", out, [&](std::size_t i, std::size_t k) {
        const double x = std::max(number(out.posts[i].x), number(out.posts[k].x));
        return across_at(i, x) > across_at(k, x) + plainly;
    });
}

/// How far across the board a string runs at x, in metres.
template <class R>
[[nodiscard]] double across_at(const basic_string_setup<R>& s, double x) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    const double from = number(s.line.nut_x), to = number(s.line.saddle_x), y = number(s.y_at_nut);
    return y + (number(s.y_at_saddle) - y) * (x - from) / (to - from);
}

/// Asks about strings with nuts of their own that cross others over the board: the side of their nut may be mistaken.
template <class R>
void find_crossings_on_board(std::size_t own_nuts, basic_setup<R>& out) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    tell_crossings<R>(0, own_nuts, out.strings.size(), "board", out, [&](std::size_t i, std::size_t k) {
        const auto &s = out.strings[i], &other = out.strings[k];
        const double x = std::max(number(s.line.nut_x), number(other.line.nut_x));
        return across_at(s, x) > across_at(other, x);
    });
}

/// Tells neighbouring strings that would lie inside each other, by the pair that does so most. Each pair is looked at where
/// both strings have begun and where the first of them ends: a fan's strings and one with a nut of its own begin apart.
template <class R>
void find_overlaps(basic_setup<R>& out) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    constexpr double rounding = 1e-6; // in metres: strings may touch
    std::size_t pairs = 0, one = 0;
    double most = rounding;
    const char* where = "nut";
    for (std::size_t i = 0; i + 1 < out.strings.size(); ++i) {
        const auto &s = out.strings[i], &next = out.strings[i + 1];
        const double thick = (number(s.gauge) + number(next.gauge)) / 2;
        const auto inside_at = [&](double x) { return thick - std::abs(across_at(next, x) - across_at(s, x)); };
        const double at_nut = inside_at(std::max(number(s.line.nut_x), number(next.line.nut_x)));
        const double at_saddle = inside_at(std::min(number(s.line.saddle_x), number(next.line.saddle_x)));
        const double inside = std::max(at_nut, at_saddle);
        pairs += inside > rounding ? 1 : 0;
        if (!(inside > most)) { continue; }
        most = inside;
        one = i;
        where = at_nut < at_saddle ? "saddle" : "nut";
    }
    if (pairs == 0) { return; }
    out.findings.push_back({.kind = finding_kind::strings_overlap,
                            .severity = severity::stop,
                            .string_index = one,
                            .other_index = one + 1,
                            .number = length<double>::from_value(most),
                            .limit = length<double>(),
                            .beside = {static_cast<double>(pairs)},
                            .part = where});
}

template <class R>
void find_order(const basic_instrument<R>& built, basic_setup<R>& out) {
    find_set_order(out);
    if (const auto& fan = built.board.scale.fan; fan && !fan->measured()) {
        const auto bass = static_cast<double>(value_of(fan->bass_scale.value())),
                   treble = static_cast<double>(value_of(fan->treble_scale.value()));
        if (bass < treble) {
            out.findings.push_back({.kind = finding_kind::bass_scale_shorter,
                                    .severity = severity::note,
                                    .number = length<double>::from_value(bass),
                                    .limit = length<double>::from_value(treble)});
        }
    }
    find_crossings(built.short_strings.size(), out);
    find_crossings_on_board(built.short_strings.size(), out);
    find_overlaps(out);
}

} // namespace kernel
} // namespace tautline
