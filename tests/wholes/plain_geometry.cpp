#include "plain_geometry.hpp"

#include <tautline/board/spacing.hpp>
#include <tautline/strings/music_string.hpp>

namespace wholes {

namespace {

double si(const auto& q) { return q.value(); }

double height_of(const std::vector<tautline::permanent_bow_mark>& marks, double x) {
    if (marks.empty()) { return 0; }
    if (x <= si(marks.front().x)) { return si(marks.front().z); }
    for (std::size_t k = 1; k < marks.size(); ++k) {
        const double a = si(marks[k - 1].x), b = si(marks[k].x);
        if (x <= b) { return si(marks[k - 1].z) + (si(marks[k].z) - si(marks[k - 1].z)) * (x - a) / (b - a); }
    }
    return si(marks.back().z);
}

} // namespace

plain_geometry::plain_geometry(const whole& w) : built_(w.built) {
    const auto& b = w.built;
    std::vector<tautline::length<>> gauges;
    for (const auto& s : w.stringing.strings) {
        gauges.push_back(tautline::gauge(s.string));
        gauges_.push_back(si(gauges.back()));
    }
    const auto y_nut = tautline::string_places(b.nut.spacing, gauges);
    const auto y_saddle = tautline::string_places(b.saddle.spacing, gauges);
    const std::size_t n = y_nut.size();
    const double first = si(y_saddle.front()), last = si(y_saddle.back());
    if (const auto& fan = b.board.scale.fan) {
        fanned_ = true;
        const double y[2] = {si(y_nut.front()), si(y_nut.back())};
        // Both outer strings run so far along x; their nut ends lie on one line through x = y = 0, and they pass the square
        // fret at one x.
        const auto run = [](double length, double across) { return std::sqrt(length * length - across * across); };
        const double bass = run(si(fan->bass_scale), first - y[0]), treble = run(si(fan->treble_scale), last - y[1]);
        const double gone = 1 - std::exp2(-fan->square_fret / b.board.scale.steps);
        nut_lean_ = (bass - treble) * gone / (y[1] - y[0]);
        bass_[0] = {nut_lean_ * y[0], y[0], 0};
        treble_[0] = {nut_lean_ * y[1], y[1], 0};
        bass_[1] = {bass_[0].x + bass, first, 0};
        treble_[1] = {treble_[0].x + treble, last, 0};
        saddle_lean_ = (treble_[1].x - bass_[1].x) / (last - first);
        saddle_line_ = bass_[1].x - saddle_lean_ * first;
    } else {
        saddle_line_ = si(b.board.scale.scale_length);
    }
    for (int k = 0; k <= std::max(b.board.scale.frets, b.neck.joint_fret); ++k) { frets_.push_back(find_fret(k)); }
    const double scale = saddle_line_;
    top_z_ = -si(b.saddle.board_line);
    pinned_ = b.pins.has_value();
    hung_ = b.tailpiece.has_value();
    const double pitch = si(b.headstock.pitch), face_x = -si(b.headstock.face_start), face_z = -si(b.headstock.face_drop);
    for (std::size_t i = 0; i < n; ++i) {
        const double half = gauges_[i] / 2;
        const auto& slots = b.nut.slot_heights;
        const double y = si(y_nut[i]);
        const double over = b.board.scale.zero_fret ? si(b.frets.wire.crown_height) : si(slots[slots.size() == 1 ? 0 : i]);
        const double x = fanned_ ? nut_lean_ * y : 0;
        nuts_.push_back({x, y, over - arc_fall(x, y) + half});

        const double ys = si(y_saddle[i]), share = n == 1 ? 0 : (ys - first) / (last - first);
        const auto& single = b.saddle.single;
        double z = single.empty()
                       ? si(b.saddle.height_bass) + share * (si(b.saddle.height_treble) - si(b.saddle.height_bass))
                       : si(single[i].height);
        if (b.saddle.radius && single.empty()) {
            const double r = si(*b.saddle.radius);
            const auto fall = [&](double at) { return r - std::sqrt(r * r - at * at); };
            z += (1 - share) * fall(first) + share * fall(last) - fall(ys);
        }
        const double back =
            single.empty() ? si(b.saddle.setback_bass) + share * (si(b.saddle.setback_treble) - si(b.saddle.setback_bass))
                           : si(single[i].setback);
        const double aside = saddle_lean_ * ys;
        saddles_.push_back({scale + aside + back, ys, top_z_ + z + half});

        const auto& p = b.posts[i];
        const double along = si(p.along), high = si(p.height);
        posts_.push_back({face_x - std::cos(pitch) * along - std::sin(pitch) * high, si(p.across),
                          face_z - std::sin(pitch) * along + std::cos(pitch) * high});

        const double middle = (first + last) / 2, spread = si(hung_     ? b.tailpiece->spread
                                                              : pinned_ ? b.pins->spread
                                                                        : b.body_bridge->spread);
        anchors_.push_back({0, n == 1 ? ys : middle + spread * (ys - middle) / (last - first), 0});
        if (!hung_) {
            anchors_[i].x = scale + aside + si(pinned_ ? b.pins->distance : b.body_bridge->distance);
            anchors_[i].z = top_z_ + si(pinned_ ? b.pins->height : b.body_bridge->height) + half; // lies on the edge
        }
    }
    if (b.tailpiece) {
        hinge_ = {scale + si(b.tailpiece->hinge_distance), 0, top_z_ + si(b.tailpiece->hinge_height)};
        reach_ = si(b.tailpiece->reach);
    }
}

double plain_geometry::set_at(double x) const {
    const auto& n = built_.neck;
    return n.set_bass.empty() ? height_of(n.set, x) : (height_of(n.set_bass, x) + height_of(n.set_treble, x)) / 2;
}
double plain_geometry::twist_at(double x, double y) const {
    const auto& n = built_.neck;
    if (n.set_bass.empty()) { return 0; }
    const auto& b = built_.board;
    const double wide = si(b.width_at_nut) + (si(b.width_at_end) - si(b.width_at_nut)) * x / si(b.board_length);
    return (height_of(n.set_treble, x) - height_of(n.set_bass, x)) * y / wide;
}
double plain_geometry::find_fret(int n) const {
    const auto& scale = built_.board.scale;
    if (n == 0) { return 0; }
    if (!fanned_) {
        auto counted = scale;
        counted.frets = std::max(counted.frets, n);
        if (!counted.measured_places.empty()) { counted.frets = static_cast<int>(counted.measured_places.size()); }
        return si(tautline::fret_position(counted, n));
    }
    // Between the places that divide the outer strings, where y is 0.
    const double gone = 1 - std::exp2(-static_cast<double>(n) / scale.steps);
    const spot a = bass_[0] + gone * (bass_[1] - bass_[0]), b = treble_[0] + gone * (treble_[1] - treble_[0]);
    return (a.x * b.y - b.x * a.y) / (b.y - a.y);
}
spot plain_geometry::crossing(std::size_t i, int n, const motions& m) const {
    const spot from = nut(i, m), to = saddle(i, m);
    if (!fanned_) {
        const double x = fret(n);
        return from + ((x - from.x) / (to.x - from.x)) * (to - from);
    }
    const double gone = 1 - std::exp2(-static_cast<double>(n) / built_.board.scale.steps);
    const spot a = bass_[0] + gone * (bass_[1] - bass_[0]), b = treble_[0] + gone * (treble_[1] - treble_[0]);
    // How far along the string both sides of the fret's line are alike: its share by areas on either side.
    const auto side = [&](const spot& p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); };
    const double before = side(from), after = side(to);
    return from + (before / (before - after)) * (to - from);
}
double plain_geometry::arc_curvature(double x) const {
    const auto& s = built_.board.surface;
    if (!s.radius) { return 0; }
    double r = si(*s.radius);
    if (s.radius_at_end) { r += (si(*s.radius_at_end) - r) * x / si(*s.cone_length); }
    return 1 / r;
}
double plain_geometry::arc_fall(double x, double y) const {
    const double k = arc_curvature(x);
    if (k == 0) { return 0; }
    return 1 / k - std::sqrt(1 / (k * k) - y * y);
}

spot plain_geometry::post(std::size_t i, const motions& m) const {
    const spot p = posts_[i];
    return {p.x, p.y, p.z + set_at(0) + twist_at(0, p.y) + m.nut_rise + m.neck_slope * p.x};
}
spot plain_geometry::nut(std::size_t i, const motions& m) const {
    const spot p = nuts_[i];
    const double over = m.end_over.empty() ? 0 : m.end_over[i];
    return {p.x, p.y, p.z + set_at(p.x) + twist_at(p.x, p.y) + m.nut_rise + over};
}
spot plain_geometry::saddle(std::size_t i, const motions& m) const {
    const spot p = saddles_[i];
    if (!built_.soundboard) { return p; }
    return {p.x - m.turn * si(*built_.soundboard->saddle_height), p.y,
            p.z - m.sink - m.turn * si(*built_.soundboard->saddle_ahead)};
}
spot plain_geometry::anchor(std::size_t i, const motions& m) const {
    spot p = anchors_[i];
    if (pinned_) {
        // Pin and saddle are one body: what lies behind the saddle rises as the bridge turns toward the nut.
        const spot d = p - saddles_[i];
        const double c = std::cos(m.turn), s = std::sin(m.turn);
        return saddle(i, m) + spot{d.x * c - d.z * s, d.y, d.z * c + d.x * s};
    }
    if (!hung_) { return p; }
    p.x = hinge_.x - reach_ * std::cos(m.tail_rise);
    p.z = hinge_.z + reach_ * std::sin(m.tail_rise);
    return p;
}
double plain_geometry::path(std::size_t i, const motions& m) const {
    return distance(post(i, m), nut(i, m)) + distance(nut(i, m), saddle(i, m)) + distance(saddle(i, m), anchor(i, m));
}
double plain_geometry::speaking_unbowed(std::size_t i, const motions& m) const { return distance(nuts_[i], saddle(i, m)); }

spot plain_geometry::front_edge(const motions& m) const {
    const auto& f = *built_.feet;
    const double scale = saddle_line_, slope = std::tan(si(f.top_slope));
    return {scale - si(f.ahead), 0, top_z_ - si(f.ahead) * slope - m.sink};
}
spot plain_geometry::back_edge(const motions& m) const {
    const auto& f = *built_.feet;
    const double scale = saddle_line_, slope = std::tan(si(f.top_slope));
    return {scale + si(f.behind), 0, top_z_ + si(f.behind) * slope - m.sink};
}
spot plain_geometry::top_middle(std::size_t i, const motions& m) const {
    const spot moved = saddle(i, m) - saddles_[i];
    return {saddles_[i].x + moved.x, saddles_[i].y, top_z_ - si(built_.pins->top_thickness) / 2 + moved.z};
}

} // namespace wholes
