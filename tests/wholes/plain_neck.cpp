#include "plain_neck.hpp"

#include <algorithm>

#include <tautline/neck/section.hpp>

namespace wholes {

namespace {

double si(const auto& q) { return q.value(); }

} // namespace

double plain_bow::at(double x_there) const {
    if (x_there >= x.back()) { return 0; }
    if (x_there <= x.front()) { return w.front() + slope.front() * (x_there - x.front()); }
    const auto after = std::upper_bound(x.begin(), x.end(), x_there);
    const auto i = static_cast<std::size_t>(after - x.begin()) - 1;
    const double h = x[i + 1] - x[i], u = (x_there - x[i]) / h, v = 1 - u;
    return w[i] * v * v * (1 + 2 * u) + h * slope[i] * u * v * v + w[i + 1] * u * u * (3 - 2 * u) -
           h * slope[i + 1] * u * u * v;
}

plain_neck::plain_neck(const whole& w, const plain_geometry& g) : whole_(w), geometry_(g) {
    // The joint's fret counts on the scale also where the board has no frets.
    auto counted = w.built.board.scale;
    counted.frets = std::max(counted.frets, w.built.neck.joint_fret);
    if (!counted.measured_places.empty()) { counted.frets = static_cast<int>(counted.measured_places.size()); }
    joint_ = si(tautline::fret_position(counted, w.built.neck.joint_fret));
}

double plain_neck::kept_by_slots(double side) const {
    const auto& slots = *whole_.built.neck.slots;
    const auto& scale = whole_.built.board.scale;
    double before = 0;
    for (int n = 1; n <= scale.frets; ++n) {
        const double at = si(tautline::fret_position(scale, n));
        if (side <= at) {
            const double u = (at - before) / (2 * 1.06 * si(slots.depth) * std::sqrt(slots.shear_ratio));
            const double empty = 1 - std::tanh(u) / u;
            return empty + (1 - empty) * slots.bearing;
        }
        before = at;
    }
    return 1;
}

plain_section plain_neck::section(double x, double side) const {
    using tautline::length;
    const auto& b = whole_.built.board;
    const auto& n = whole_.built.neck;
    const double along = x / si(b.board_length);
    const double half = (si(b.width_at_nut) + (si(b.width_at_end) - si(b.width_at_nut)) * along) / 2;
    const double end = b.thickness_at_end ? si(*b.thickness_at_end) : si(b.thickness);
    const double thick = si(b.thickness) + (end - si(b.thickness)) * along;
    const double deep = si(n.depth_at_nut) + (si(n.depth_at_joint) - si(n.depth_at_nut)) * x / joint_;
    const auto m = [](double v) { return length<>::from_value(v); };
    // A modulus without shear is what it is.
    const auto bends = [&](tautline::modulus_method how, double e) {
        return how == tautline::modulus_method::tap_tone ? e : n.pure_bending_factor * e;
    };
    const double board_e = bends(n.board_method, si(n.board_modulus)), back_e = bends(n.back_method, si(n.back_modulus));
    const auto board = tautline::board_sums(tautline::stress<>::from_value(board_e), m(half), m(thick),
                                            tautline::curvature<>::from_value(geometry_.arc_curvature(x)));
    const auto back = tautline::back_sums<double>(tautline::stress<>::from_value(back_e), m(half), m(deep - thick),
                                                  m(-thick), tautline::superellipse_shape(n.back_exponent));
    double ea = si(board.ea) + si(back.ea), es = si(board.es) + si(back.es), ej = si(board.ej) + si(back.ej);
    const auto take = [&](double e, double wide, double top, double bottom) {
        ea -= e * wide * (top - bottom);
        es -= e * wide * (top * top - bottom * bottom) / 2;
        ej -= e * wide * (top * top * top - bottom * bottom * bottom) / 3;
    };
    if (n.slots) {
        // Strips side by side under the arc, Simpson's rule over the half width.
        const double lost = (1 - kept_by_slots(side)) * board_e, arc = geometry_.arc_curvature(x), d = si(n.slots->depth);
        constexpr int strips = 40;
        for (int k = 0; k <= strips; ++k) {
            const double y = half * k / strips, weight = k == 0 || k == strips ? 1 : k % 2 == 1 ? 4 : 2;
            const double top = arc == 0 ? 0 : (std::sqrt(1 - arc * arc * y * y) - 1) / arc;
            take(lost, 2 * weight * half / strips / 3, top, top - d);
        }
    }
    for (const auto& part : n.inserts) {
        if (side < si(part.x_from) || si(part.x_to) < side) { continue; }
        const double top = si(part.top), bottom = top - si(part.height), glue = std::clamp(-thick, bottom, top);
        take(board_e, si(part.width), top, glue);
        take(back_e, si(part.width), glue, bottom);
    }
    return {ej - es * es / ea, es / ea};
}

std::vector<double> plain_neck::breaks() const {
    std::vector<double> at{0, joint_};
    const auto add = [&](double x) {
        if (x > 0 && x < joint_) { at.push_back(x); }
    };
    for (const auto& mark : whole_.built.neck.set) { add(si(mark.x)); }
    for (const auto& part : whole_.built.neck.inserts) {
        add(si(part.x_from));
        add(si(part.x_to));
    }
    if (whole_.built.neck.slots) {
        const auto& scale = whole_.built.board.scale;
        for (int n = 1; n <= scale.frets; ++n) { add(si(tautline::fret_position(scale, n))); }
    }
    if (const auto& rod = whole_.built.neck.rod) {
        add(si(rod->x_from));
        add(si(rod->x_to));
    }
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end(), [&](double a, double b) { return b - a < 1e-9 * joint_; }), at.end());
    return at;
}
bool plain_neck::rod_between(double from, double to) const {
    const auto& rod = whole_.built.neck.rod;
    const double middle = (from + to) / 2;
    return rod && si(rod->x_from) < middle && middle < si(rod->x_to);
}

double plain_neck::moment(const std::vector<plain_pull>& pulls, double x, const plain_section& there, bool rod_on,
                          const plain_bow& bow) const {
    const auto board_at = [&](double place) { return geometry_.set_at(place) + bow.at(place); };
    const double axis = there.neutral_axis + board_at(x);
    double sum = 0;
    for (const auto& p : pulls) {
        const double at_nut = p.z_nut + board_at(0);
        sum += p.along * (at_nut + (p.z_saddle - at_nut) * x / p.x_saddle - axis);
    }
    if (!rod_on) { return sum; }
    const auto& rod = *whole_.built.neck.rod;
    const double pull = si(whole_.built.neck.pull_of_rod()), from = si(rod.x_from), to = si(rod.x_to);
    if (si(rod.separation) > 0) { return sum - pull * si(rod.separation); }
    const double u = (x - from) / (to - from), under_board = si(rod.z_ends) - 4 * si(rod.dip) * u * (1 - u);
    const double line = rod.free_in_channel ? board_at(from) * (1 - u) + board_at(to) * u : board_at(x);
    return sum - pull * (axis - (line + under_board));
}

plain_bow plain_neck::bowed(const std::vector<plain_pull>& pulls) const {
    // Steps of three places between breaks, from the nut to the joint; a break's place comes once for each side.
    struct place {
        double x, half_step;
        plain_section there;
        bool rod_on;
    };
    std::vector<place> places;
    const auto at = breaks();
    for (std::size_t k = 1; k < at.size(); ++k) {
        const double from = at[k - 1], to = at[k];
        const int steps = 1 + static_cast<int>(std::ceil(30 * (to - from) / joint_));
        const double h = (to - from) / (2 * steps);
        for (int j = 0; j <= 2 * steps; ++j) {
            const double x = from + h * j;
            places.push_back({x, h, section(x, (from + to) / 2), rod_between(from, to)});
        }
    }
    const std::size_t n = places.size();
    plain_bow bow;
    for (const auto& p : places) { bow.x.push_back(p.x); }
    bow.w.assign(n, 0);
    bow.slope.assign(n, 0);
    const double creep = whole_.built.neck.creep_factor;
    const auto& yields = whole_.built.neck.joint_stiffness;
    std::vector<double> bend(n);
    for (int round = 0; round < 3000 && !bow.settled; ++round) {
        for (std::size_t k = 0; k < n; ++k) {
            const auto& p = places[k];
            bend[k] = moment(pulls, p.x, p.there, p.rod_on, bow) / p.there.rigidity;
        }
        const double before = bow.w.front();
        double w = 0, slope = yields ? bend[n - 1] * places[n - 1].there.rigidity / si(*yields) : 0;
        bow.w[n - 1] = 0;
        bow.slope[n - 1] = -slope;
        for (std::size_t k = n - 1; k > 0;) {
            if (places[k - 1].x == places[k].x || places[k].x - places[k - 1].x < 1e-3 * places[k].half_step) {
                bow.w[k - 1] = w;
                bow.slope[k - 1] = -slope;
                --k;
                continue;
            }
            // Double integrals of the parabola through three places.
            const double h = places[k].half_step, f0 = bend[k], f1 = bend[k - 1], f2 = bend[k - 2];
            bow.w[k - 1] = w + h * slope + h * h * (7 * f0 + 6 * f1 - f2) / 24;
            bow.slope[k - 1] = -(slope + h * (5 * f0 + 8 * f1 - f2) / 12);
            w += 2 * h * slope + h * h * (2 * f0 + 4 * f1) / 3;
            slope += h * (f0 + 4 * f1 + f2) / 3;
            bow.w[k - 2] = w;
            bow.slope[k - 2] = -slope;
            k -= 2;
        }
        if (round == 0) { bow.first_order_rise = bow.w.front() * creep; }
        if (!std::isfinite(bow.w.front()) || std::abs(bow.w.front()) > 1) { break; } // it buckles
        bow.settled = std::abs(bow.w.front() - before) < 1e-15;
    }
    const plain_bow straight{{0, joint_}, {0, 0}, {0, 0}};
    for (std::size_t k = 1; k < n; ++k) {
        // A bend at x raises the nut by x times its angle.
        const auto& p = places[k];
        const double all = moment(pulls, p.x, p.there, p.rod_on, straight),
                     strings = moment(pulls, p.x, p.there, false, straight);
        bow.parts +=
            (std::abs(strings) + std::abs(all - strings)) / p.there.rigidity * p.x * (p.x - places[k - 1].x) * creep;
    }
    for (std::size_t k = 0; k < n; ++k) {
        bow.w[k] *= creep;
        bow.slope[k] *= creep;
    }
    return bow;
}

} // namespace wholes
