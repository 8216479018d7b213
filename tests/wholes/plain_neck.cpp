#include "plain_neck.hpp"

#include <algorithm>
#include <numbers>
#include <tuple>

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
    joint_ = g.fret(w.built.neck.joint_fret);
    const auto at = breaks();
    for (std::size_t k = 1; k < at.size(); ++k) {
        const double from = at[k - 1], to = at[k];
        const int steps = 1 + static_cast<int>(std::ceil(30 * (to - from) / joint_));
        const double h = (to - from) / (2 * steps);
        for (int j = 0; j <= 2 * steps; ++j) {
            const double x = from + h * j;
            places_.push_back({x, h, section(x, (from + to) / 2), rod_between(from, to)});
        }
    }
}

plain_neck::bay plain_neck::bay_at(double side) const {
    const auto& slots = whole_.built.neck.slots;
    if (!slots) { return {}; }
    double before = 0;
    for (int n = 1; n <= whole_.built.board.scale.frets; ++n) {
        const double at = geometry_.fret(n);
        if (side <= at) {
            const double u = (at - before) / (2 * 1.06 * si(slots->depth) * std::sqrt(slots->shear_ratio));
            const double empty = 1 - std::tanh(u) / u;
            // Each tang pushes to both sides, and the nut has none.
            const double tangs = n == 1 ? 0.5 : 1;
            return {true, empty + (1 - empty) * slots->bearing,
                    tangs * slots->wedging * si(slots->interference) / (at - before)};
        }
        before = at;
    }
    return {};
}

plain_neck::back_there plain_neck::back_at(double x) const {
    const auto& n = whole_.built.neck;
    const auto& b = whole_.built.board;
    const auto thick = [&](double at) {
        const double end = b.thickness_at_end ? si(*b.thickness_at_end) : si(b.thickness);
        return si(b.thickness) + (end - si(b.thickness)) * at / si(b.board_length);
    };
    const auto round = tautline::superellipse_shape(n.back_exponent);
    // Nut, traced places and joint; between two of them depth and shape go straight.
    std::vector<std::pair<double, back_there>> known;
    known.push_back({0, {si(n.depth_at_nut) - thick(0), round}});
    for (const auto& t : n.traced) {
        const double half =
            (si(b.width_at_nut) + (si(b.width_at_end) - si(b.width_at_nut)) * si(t.x) / si(b.board_length)) / 2;
        back_there traced;
        for (const auto& p : t.profile) { traced.depth = std::max(traced.depth, si(p.depth)); }
        double area = 0, first = 0, second = 0;
        for (std::size_t k = 1; k < t.profile.size(); ++k) {
            const double p = si(t.profile[k - 1].depth), q = si(t.profile[k].depth);
            const double wide = si(t.profile[k].y) - si(t.profile[k - 1].y);
            // Gauss's rule of two places is exact for the cube of a line.
            for (const double u : {0.5 - std::sqrt(1.0 / 12), 0.5 + std::sqrt(1.0 / 12)}) {
                const double d = p + (q - p) * u;
                area += wide / 2 * d;
                first += wide / 2 * d * d;
                second += wide / 2 * d * d * d;
            }
        }
        const double h = traced.depth;
        traced.shape = {area / (2 * half * h), first / (2 * half * h * h), second / (2 * half * h * h * h)};
        known.push_back({si(t.x), traced});
    }
    known.push_back({joint_, {si(n.depth_at_joint) - thick(joint_), round}});
    std::size_t k = 1;
    while (k + 1 < known.size() && known[k].first < x) { ++k; }
    const auto& [from, a] = known[k - 1];
    const auto& [to, c] = known[k];
    const double way = (x - from) / (to - from);
    const auto mix = [way](double p, double q) { return p + (q - p) * way; };
    return {mix(a.depth, c.depth),
            {mix(a.shape.area, c.shape.area), mix(a.shape.first, c.shape.first), mix(a.shape.second, c.shape.second)}};
}

plain_section plain_neck::section(double x, double side) const {
    using tautline::length;
    const auto& b = whole_.built.board;
    const auto& n = whole_.built.neck;
    const double along = x / si(b.board_length);
    const double half = (si(b.width_at_nut) + (si(b.width_at_end) - si(b.width_at_nut)) * along) / 2;
    const double end = b.thickness_at_end ? si(*b.thickness_at_end) : si(b.thickness);
    const double thick = si(b.thickness) + (end - si(b.thickness)) * along;
    const auto shape = back_at(x);
    const auto m = [](double v) { return length<>::from_value(v); };
    // A modulus without shear is what it is.
    const auto bends = [&](tautline::modulus_method how, double e) {
        return how == tautline::modulus_method::tap_tone ? e : n.pure_bending_factor * e;
    };
    const double board_e = bends(n.board_method, si(n.board_modulus)), back_e = bends(n.back_method, si(n.back_modulus));
    const auto board = tautline::board_sums(tautline::stress<>::from_value(board_e), m(half), m(thick),
                                            tautline::curvature<>::from_value(geometry_.arc_curvature(x)));
    const auto back = tautline::back_sums<double>(tautline::stress<>::from_value(back_e), m(half), m(shape.depth),
                                                  m(-thick), shape.shape);
    double ea = si(board.ea) + si(back.ea), es = si(board.es) + si(back.es), ej = si(board.ej) + si(back.ej);
    const auto take = [&](double e, double wide, double top, double bottom) {
        ea -= e * wide * (top - bottom);
        es -= e * wide * (top * top - bottom * bottom) / 2;
        ej -= e * wide * (top * top * top - bottom * bottom * bottom) / 3;
    };
    // What pushes along the neck without load, and its moment about z = 0.
    double push = n.board_strain * si(board.ea), push_moment = n.board_strain * si(board.es);
    if (const auto in = bay_at(side); in.slotted) {
        // Strips side by side under the arc, Simpson's rule over the half width.
        const double arc = geometry_.arc_curvature(x), d = si(n.slots->depth);
        constexpr int strips = 40;
        for (int k = 0; k <= strips; ++k) {
            const double y = half * k / strips, weight = k == 0 || k == strips ? 1 : k % 2 == 1 ? 4 : 2;
            const double top = arc == 0 ? 0 : (std::sqrt(1 - arc * arc * y * y) - 1) / arc, bottom = top - d;
            const double wide = 2 * weight * half / strips / 3, lost = 1 - in.kept;
            take(lost * board_e, wide, top, bottom);
            const double pushes = board_e * (in.kept * in.strain - lost * n.board_strain) * wide;
            push += pushes * (top - bottom);
            push_moment += pushes * (top * top - bottom * bottom) / 2;
        }
    }
    const auto take_round = [&](double above, double below, double wide, double top) {
        // By the angle from its top, Simpson's rule on each side of the glue line.
        const double r = wide / 2, middle = top - r;
        const double cut = std::acos(std::clamp((-thick - middle) / r, -1.0, 1.0));
        constexpr int strips = 60;
        for (const auto& [from, to, e] : {std::tuple{0.0, cut, above}, std::tuple{cut, std::numbers::pi, below}}) {
            for (int k = 0; k <= strips; ++k) {
                const double a = from + (to - from) * k / strips, weight = k == 0 || k == strips ? 1 : k % 2 == 1 ? 4 : 2;
                const double z = middle + r * std::cos(a);
                const double area = weight * (to - from) / strips / 3 * 2 * r * r * std::pow(std::sin(a), 2);
                ea -= e * area;
                es -= e * area * z;
                ej -= e * area * z * z;
            }
        }
    };
    for (const auto& part : n.inserts) {
        if (side < si(part.x_from) || si(part.x_to) < side) { continue; }
        const double top = si(part.top), e = si(part.modulus), wide = si(part.width), wall = si(part.wall);
        if (part.profile == tautline::insert_profile::round) {
            take_round(board_e - e, back_e - e, wide, top);
            if (wall > 0) { take_round(e, e, wide - 2 * wall, top - wall); }
            continue;
        }
        const double bottom = top - si(part.height), glue = std::clamp(-thick, bottom, top);
        take(board_e - e, wide, top, glue);
        take(back_e - e, wide, glue, bottom);
    }
    const double axis = es / ea, rigidity = ej - es * axis;
    return {rigidity, axis, (push * axis - push_moment) / rigidity};
}

std::vector<double> plain_neck::breaks() const {
    std::vector<double> at{0, joint_};
    const auto add = [&](double x) {
        if (x > 0 && x < joint_) { at.push_back(x); }
    };
    const auto& measured = whole_.built.neck;
    for (const auto* marks : {&measured.set, &measured.set_bass, &measured.set_treble}) {
        for (const auto& mark : *marks) { add(si(mark.x)); }
    }
    for (const auto& t : measured.traced) { add(si(t.x)); }
    for (const auto& part : whole_.built.neck.inserts) {
        add(si(part.x_from));
        add(si(part.x_to));
    }
    if (whole_.built.neck.slots) {
        for (int n = 1; n <= whole_.built.board.scale.frets; ++n) { add(geometry_.fret(n)); }
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
    const auto board_at = [&](double at) { return geometry_.set_at(at) + bow.at(at); };
    const double axis = there.neutral_axis + board_at(x);
    double sum = 0;
    for (const auto& p : pulls) {
        const double at_nut = p.z_nut + board_at(p.x_nut);
        sum += p.along * (at_nut + (p.z_saddle - at_nut) * (x - p.x_nut) / (p.x_saddle - p.x_nut) - axis);
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
    const auto& places = places_;
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
            bend[k] = moment(pulls, p.x, p.there, p.rod_on, bow) / p.there.rigidity + p.there.free_bend;
        }
        const double before = bow.w.front();
        double w = 0,
               slope =
                   yields ? (bend[n - 1] - places[n - 1].there.free_bend) * places[n - 1].there.rigidity / si(*yields) : 0;
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
        bow.parts += ((std::abs(strings) + std::abs(all - strings)) / p.there.rigidity + std::abs(p.there.free_bend)) *
                     p.x * (p.x - places[k - 1].x) * creep;
    }
    for (std::size_t k = 0; k < n; ++k) {
        bow.w[k] *= creep;
        bow.slope[k] *= creep;
    }
    return bow;
}

} // namespace wholes
