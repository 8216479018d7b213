#include "plain_geometry.hpp"

#include <tautline/board/spacing.hpp>
#include <tautline/strings/music_string.hpp>

namespace wholes {

namespace {

double si(const auto& q) { return q.value(); }

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
    const double scale = si(b.board.scale.scale_length), first = si(y_saddle.front()), last = si(y_saddle.back());
    top_z_ = -si(b.saddle.board_line);
    pinned_ = b.pins.has_value();
    hung_ = b.tailpiece.has_value();
    const double pitch = si(b.headstock.pitch), face_x = -si(b.headstock.face_start), face_z = -si(b.headstock.face_drop);
    for (std::size_t i = 0; i < n; ++i) {
        const double half = gauges_[i] / 2;
        const auto& slots = b.nut.slot_heights;
        const double y = si(y_nut[i]);
        const double over = b.board.scale.zero_fret ? si(b.frets.wire.crown_height) : si(slots[slots.size() == 1 ? 0 : i]);
        nuts_.push_back({0, y, over - arc_fall(0, y) + half});

        const double ys = si(y_saddle[i]), share = n == 1 ? 0 : (ys - first) / (last - first);
        double z = si(b.saddle.height_bass) + share * (si(b.saddle.height_treble) - si(b.saddle.height_bass));
        if (b.saddle.radius) {
            const double r = si(*b.saddle.radius);
            const auto fall = [&](double at) { return r - std::sqrt(r * r - at * at); };
            z += (1 - share) * fall(first) + share * fall(last) - fall(ys);
        }
        const double back = si(b.saddle.setback_bass) + share * (si(b.saddle.setback_treble) - si(b.saddle.setback_bass));
        saddles_.push_back({scale + back, ys, top_z_ + z + half});

        const auto& p = b.posts[i];
        const double along = si(p.along), high = si(p.height);
        posts_.push_back({face_x - std::cos(pitch) * along - std::sin(pitch) * high, si(p.across),
                          face_z - std::sin(pitch) * along + std::cos(pitch) * high});

        const double middle = (first + last) / 2, spread = si(hung_     ? b.tailpiece->spread
                                                              : pinned_ ? b.pins->spread
                                                                        : b.body_bridge->spread);
        anchors_.push_back({0, n == 1 ? ys : middle + spread * (ys - middle) / (last - first), 0});
        if (!hung_) {
            anchors_[i].x = scale + si(pinned_ ? b.pins->distance : b.body_bridge->distance);
            anchors_[i].z = top_z_ + si(pinned_ ? b.pins->height : b.body_bridge->height);
        }
    }
    if (b.tailpiece) {
        hinge_ = {scale + si(b.tailpiece->hinge_distance), 0, top_z_ + si(b.tailpiece->hinge_height)};
        reach_ = si(b.tailpiece->reach);
    }
}

double plain_geometry::set_at(double x) const {
    const auto& marks = built_.neck.set;
    if (marks.empty()) { return 0; }
    if (x <= si(marks.front().x)) { return si(marks.front().z); }
    for (std::size_t k = 1; k < marks.size(); ++k) {
        const double a = si(marks[k - 1].x), b = si(marks[k].x);
        if (x <= b) { return si(marks[k - 1].z) + (si(marks[k].z) - si(marks[k - 1].z)) * (x - a) / (b - a); }
    }
    return si(marks.back().z);
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
    return {p.x, p.y, p.z + set_at(p.x) + m.nut_rise + m.neck_slope * p.x};
}
spot plain_geometry::nut(std::size_t i, const motions& m) const {
    const spot p = nuts_[i];
    return {p.x, p.y, p.z + set_at(0) + m.nut_rise};
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
    const double scale = si(built_.board.scale.scale_length), slope = std::tan(si(f.top_slope));
    return {scale - si(f.ahead), 0, top_z_ - si(f.ahead) * slope - m.sink};
}
spot plain_geometry::back_edge(const motions& m) const {
    const auto& f = *built_.feet;
    const double scale = si(built_.board.scale.scale_length), slope = std::tan(si(f.top_slope));
    return {scale + si(f.behind), 0, top_z_ + si(f.behind) * slope - m.sink};
}
spot plain_geometry::top_middle(std::size_t i, const motions& m) const {
    const spot moved = saddle(i, m) - saddles_[i];
    return {saddles_[i].x + moved.x, saddles_[i].y, top_z_ - si(built_.pins->top_thickness) / 2 + moved.z};
}

} // namespace wholes
