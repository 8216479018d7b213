#pragma once
/// @file
/// A neck's back traced at places along it, and the stations that this makes of a neck.

#include <vector>

#include "../core/profile.hpp"
#include "../neck/station.hpp"

namespace tautline {

/// The back's shape at one place along the neck, as a profile gauge gives it: depths from the board's underside, bass
/// side first. Between its points the shape is straight. Between two traced places the back goes straight from one to the
/// other.
template <class R = double>
struct basic_traced_back {
    using real = R;
    needed<length<R>> x;                           ///< from the nut's front face
    std::vector<basic_profile_point<R>> profile{}; ///< at least three points

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(0 * units::mm, 2000 * units::mm), self.x...);
        visit("profile", self.profile...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (profile.size() < 3) {
            report("profile", "must have at least three points");
            return;
        }
        for (std::size_t i = 1; i < profile.size(); ++i) {
            if (!in_all_lanes(profile[i - 1].y.value() <= profile[i].y.value())) {
                report(messages::path_of("profile", i, "y"), "must not lie on the bass side of the point before it");
            }
        }
        if (!in_all_lanes(profile.front().y.value() < profile.back().y.value())) { report("profile", "must have a width"); }
        if (!in_all_lanes(number<R>(1e-4L) <= deepest().value())) {
            report("profile", "must be at least 0.1 mm deep somewhere");
        }
    }
    /// The greatest depth of all points.
    [[nodiscard]] length<R> deepest() const {
        length<R> most = profile.front().depth;
        for (const auto& p : profile) { most = max<unit::length, R>(most, p.depth); }
        return most;
    }
};
using traced_back = basic_traced_back<double>;

namespace kernel {

/// Whether two places along a neck count as one: they are within a micrometre.
template <class R>
[[nodiscard]] bool is_one_place(const length<R>& a, const length<R>& b) {
    return one_answer(abs(a.value() - b.value()) < number<R>(1e-6L));
}

/// The station at a place between two others whose backs are known. Its back goes straight from one to the other. It is
/// sampled across: between a half superellipse and a traced profile the shape is of neither kind.
template <class R>
void back_between(const basic_neck_station<R>& a, const basic_neck_station<R>& b, basic_neck_station<R>& s) {
    const R way = ratio<unit::length, R>(s.x - a.x, b.x - a.x), one = number<R>(1);
    constexpr int pieces = 64;
    s.profile.resize(pieces + 1);
    length<R> most{};
    for (int k = 0; k <= pieces; ++k) {
        auto& p = s.profile[static_cast<std::size_t>(k)];
        const R u = -cos(R(pi<R>() * number<R>(static_cast<long double>(k) / pieces)));
        p.y = s.half_width * u;
        p.depth = a.back_depth * R(outline_depth<R>(a, u) * (one - way)) + b.back_depth * R(outline_depth<R>(b, u) * way);
        most = max<unit::length, R>(most, p.depth);
    }
    s.back_depth = most;
}

/// Puts traced backs onto stations. Some stations lie at traced places, others between them. The first and the last are
/// the nut and the joint, whose depths were measured.
template <class R>
void trace_stations(const std::vector<basic_traced_back<R>>& traced, std::vector<basic_neck_station<R>>& stations) {
    std::vector<bool> known(stations.size());
    known.front() = known.back() = true;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        for (const auto& t : traced) {
            if (!is_one_place<R>(t.x, stations[i].x)) { continue; }
            if (!known[i]) { stations[i].back_depth = t.deepest(); }
            stations[i].profile = t.profile;
            known[i] = true;
        }
    }
    for (std::size_t i = 0, before = 0; i < stations.size(); ++i) {
        if (known[i]) {
            before = i;
            continue;
        }
        std::size_t after = i;
        while (!known[after]) { ++after; }
        back_between<R>(stations[before], stations[after], stations[i]);
    }
}

} // namespace kernel

} // namespace tautline
