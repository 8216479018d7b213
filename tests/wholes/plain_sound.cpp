#include "plain_sound.hpp"

#include <cmath>
#include <numbers>

namespace wholes {

namespace {

constexpr double pi = std::numbers::pi;

double phase(double k, double x) { return std::atan2(k * x, (1 - k) * (1 + 2 * x * x) + k * std::sqrt(1 + x * x)); }

} // namespace

double stiff_pitch(double tension, double mass, double length, double bends, double end_1, double end_2) {
    const double e = std::sqrt(bends / tension) / length;
    double a = pi;
    for (int i = 0; i < 60; ++i) { a = pi + phase(end_1, a * e) + phase(end_2, a * e); }
    const double x = a * e;
    return std::sqrt(tension / mass) / (2 * length) * a * std::sqrt(1 + x * x) / pi;
}

double open_tension(const plain_string_sound& s, double length) {
    const double limp = s.mass * std::pow(2 * length * s.pitch, 2);
    double low = limp / 4, high = limp * 1.0001;
    for (int i = 0; i < 80; ++i) {
        const double middle = (low + high) / 2;
        (stiff_pitch(middle, s.mass, length, s.bends, s.nut, s.saddle) < s.pitch ? low : high) = middle;
    }
    return (low + high) / 2;
}

plain_note pressed(const plain_string_sound& s, const plain_line& line, const std::vector<double>& crest_x,
                   const std::vector<double>& crest_z, std::size_t n, int step) {
    const double spread = (line.saddle_y - line.nut_y) / line.saddle_x, plan = std::sqrt(1 + spread * spread);
    const auto run = [&](double dx, double dz) { return std::sqrt(dx * dx * plan * plan + dz * dz); };
    const double x = crest_x[n - 1], z = crest_z[n - 1], before = n > 1 ? crest_x[n - 2] : 0;
    const double behind = std::min(s.behind, 0.75 * (x - before));
    // The string from the finger back to the nut is the highest of all chords over what lies between.
    std::vector<std::pair<double, double>> under{{0.0, line.nut_z}};
    for (std::size_t i = 0; i + 1 < n; ++i) { under.emplace_back(crest_x[i], crest_z[i]); }
    under.emplace_back(x - behind, z - s.depth);
    double taut = 0;
    for (std::size_t from = 0; from + 1 < under.size();) {
        std::size_t to = from + 1;
        double steepest = -1e300;
        for (std::size_t k = from + 1; k < under.size(); ++k) {
            const double sight = (under[k].second - under[from].second) / (under[k].first - under[from].first);
            if (sight > steepest) {
                steepest = sight;
                to = k;
            }
        }
        taut += run(under[to].first - under[from].first, under[to].second - under[from].second);
        from = to;
    }
    const double open = run(line.saddle_x, line.saddle_z - line.nut_z), t0 = open_tension(s, open),
                 strain = t0 / s.stretches;
    plain_note note;
    note.speaking = run(line.saddle_x - x, line.saddle_z - z);
    note.stretch = note.speaking + run(behind, s.depth) + taut - open;
    const double more = note.stretch * (1 + strain) / open;
    note.tension = s.stretches * (strain + more);
    const double mass = s.mass * (1 + strain) / (1 + strain + more);
    note.pitch = stiff_pitch(note.tension, mass, note.speaking, s.bends, s.fret, s.saddle);
    note.cents = 1200 * (std::log2(note.pitch / s.pitch) - static_cast<double>(step) / s.steps);
    note.share = std::sqrt(s.bends / note.tension) / note.speaking;
    return note;
}

std::optional<double> setback(const plain_string_sound& s, const plain_line& line, const std::vector<double>& crest_x,
                              const std::vector<double>& crest_z, std::size_t n, int step) {
    const auto cents = [&](double back) {
        plain_line moved = line;
        moved.saddle_x += back;
        return pressed(s, moved, crest_x, crest_z, n, step).cents;
    };
    // Secant's method from where the saddle is.
    double a = 0, at_a = cents(a), b = at_a > 0 ? 1e-4 : -1e-4, at_b = cents(b);
    for (int i = 0; i < 40 && std::abs(b - a) > 1e-13 && at_a != at_b; ++i) {
        const double next = b - at_b * (b - a) / (at_b - at_a);
        a = b;
        at_a = at_b;
        b = next;
        at_b = cents(b);
    }
    const bool there = std::isfinite(b) && std::abs(at_b) < 1e-6 && std::abs(b) < 0.1 * line.saddle_x &&
                       crest_x.back() < line.saddle_x + b;
    return there ? std::optional(b) : std::nullopt;
}

} // namespace wholes
