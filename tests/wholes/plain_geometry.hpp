#pragma once
/// @file
/// Where everything of an instrument is, from its measures alone, and where it goes when something moves: plain geometry in
/// metres that knows nothing of forces and takes nothing that a solve has filled.
///
/// What moves with what:
///   the nut and the head with its posts are the end of the neck, and ride on its set, its bow and its slope there; behind
///   a slanted nut each string's end rides on the neck under it;
///   the saddle sinks with the top and turns with a glued bridge, as supports/top.hpp models it: down by
///   `sink + turn * saddle_ahead`, toward the nut by `turn * saddle_height`;
///   pins, tie block, clamp and ball ends are one rigid body with a glued bridge and go where it goes;
///   a hinged tailpiece hangs on the end of the body, which stays, and swings about its hinge;
///   a bridge on a solid body, its saddle and the strings' ends stay where they are;
///   the feet of a floating bridge stand on the top and sink with it.

#include <cmath>
#include <vector>

#include "random_instrument.hpp"

namespace wholes {

/// A place, a step or a force in the frame of the library; metres or newtons.
struct spot {
    double x = 0, y = 0, z = 0;

    friend spot operator+(const spot& a, const spot& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend spot operator-(const spot& a, const spot& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend spot operator*(double s, const spot& a) { return {s * a.x, s * a.y, s * a.z}; }
};
[[nodiscard]] inline double size_of(const spot& a) { return std::sqrt(a.x * a.x + a.y * a.y + a.z * a.z); }
[[nodiscard]] inline double distance(const spot& a, const spot& b) { return size_of(b - a); }
/// Direction from one place to another.
[[nodiscard]] inline spot toward(const spot& from, const spot& to) { return (1 / distance(from, to)) * (to - from); }
/// `a` cross `b`: the moment of a force `b` at `a`.
[[nodiscard]] inline spot cross(const spot& a, const spot& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
template <class Point>
[[nodiscard]] spot spot_of(const Point& p) {
    return {p.x.value(), p.y.value(), p.z.value()};
}

/// Every motion that the solver knows, in metres and radians.
struct motions {
    double nut_rise = 0;            ///< of the neck's end by its bow
    std::vector<double> end_over{}; ///< of a slanted nut, by how much more each string's end rises there; else empty
    double neck_slope = 0;          ///< of the bow at the nut, dw/dx
    double sink = 0;                ///< of the top
    double turn = 0;                ///< of a glued bridge, toward the nut
    double tail_rise = 0;           ///< of a hinged tailpiece over level
};

/// An instrument and its strings as places.
class plain_geometry {
public:
    explicit plain_geometry(const whole& w);

    [[nodiscard]] std::size_t count() const { return nuts_.size(); }
    /// Whether the strings end in a glued bridge.
    [[nodiscard]] bool pinned() const { return pinned_; }
    /// Whether they end on a tailpiece that swings.
    [[nodiscard]] bool hung() const { return hung_; }
    [[nodiscard]] double gauge(std::size_t i) const { return gauges_[i]; }
    /// Height of the neck's set on the centre line: straight between marks, level outside them.
    [[nodiscard]] double set_at(double x) const;
    /// How much more of it there is off the centre line, where the edges are not alike.
    [[nodiscard]] double twist_at(double x, double y) const;
    /// Where fret n crosses the centre line (0 the nut, on boards of fewer frets where it would), and the saddle's line.
    [[nodiscard]] double fret(int n) const { return frets_[static_cast<std::size_t>(n)]; }
    [[nodiscard]] double saddle_line() const { return saddle_line_; }
    /// Where string i crosses fret n, seen from above.
    [[nodiscard]] spot crossing(std::size_t i, int n, const motions& m) const;
    /// Whether the frets fan out.
    [[nodiscard]] bool fanned() const { return fanned_; }
    /// Sets `end_over` to what a bow (a function of x) does under each string's end.
    template <class Bow>
    void ride(motions& m, const Bow& rise) const {
        m.end_over.clear();
        if (!fanned_) { return; }
        for (const spot& n : nuts_) { m.end_over.push_back(rise(n.x) - rise(0)); }
    }
    /// Fall of the board's arc at (x, y), and its curvature there.
    [[nodiscard]] double arc_fall(double x, double y) const;
    [[nodiscard]] double arc_curvature(double x) const;

    /// Where the axis of string i leaves its post, runs over nut and saddle, and ends.
    [[nodiscard]] spot post(std::size_t i, const motions& m) const;
    [[nodiscard]] spot nut(std::size_t i, const motions& m) const;
    [[nodiscard]] spot saddle(std::size_t i, const motions& m) const;
    [[nodiscard]] spot anchor(std::size_t i, const motions& m) const;
    /// The whole path of a string.
    [[nodiscard]] double path(std::size_t i, const motions& m) const;
    /// From nut to saddle with the neck straight: what the solver takes as the speaking length.
    [[nodiscard]] double speaking_unbowed(std::size_t i, const motions& m) const;

    /// Of a hinged tailpiece.
    [[nodiscard]] spot hinge() const { return hinge_; }
    /// Edges of the feet (y is 0) and their middles across, where a bridge has them.
    [[nodiscard]] spot front_edge(const motions& m) const;
    [[nodiscard]] spot back_edge(const motions& m) const;
    /// Middle of the top's thickness under string i on a glued bridge.
    [[nodiscard]] spot top_middle(std::size_t i, const motions& m) const;

private:
    const tautline::instrument& built_;
    [[nodiscard]] double find_fret(int n) const;

    bool pinned_ = false, hung_ = false, fanned_ = false;
    std::vector<double> frets_{};
    double saddle_line_ = 0;
    double nut_lean_ = 0, saddle_lean_ = 0; // of a fan
    spot bass_[2]{}, treble_[2]{};          // of a fan, the outer strings' ends before compensation, seen from above
    std::vector<double> gauges_{};
    std::vector<spot> posts_{}, nuts_{}, saddles_{}, anchors_{}; // with nothing moved; nuts without the set
    spot hinge_{};
    double reach_ = 0, top_z_ = 0;
};

} // namespace wholes
