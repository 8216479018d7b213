// Chooses a set of strings for a tuning, a scale and a pull that a neck can bear, from a stock of gauges.
//
//   choose_set --tuning "octave mandolin" --scale "20 in" --total "420 N" --each-course 2
//   choose_set --tuning "E2 A2 D3 G3 B3 E4" --scale "27 in" --treble-scale "25.5 in" --total "140 lbf" --balance feel

#include <iostream>
#include <sstream>

#include <CLI/CLI.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/strings/named_tunings.hpp>
#include <tautline/strings/stock.hpp>
#include <tautline/strings/stretch.hpp>
#include <tautline/strings/wire_materials.hpp>

#include "../../text/printed.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

struct request {
    std::string tuning = "guitar";
    std::string scale = "25 1/2 in";
    std::string treble_scale;
    std::string total = "650 N";
    std::string balance = "tension";
    std::vector<double> profile;
    int each_course = 1;
    int wound_from = 4;
    std::string core = "music wire";
    std::string wrap = "phosphor bronze";
    double core_share = 0.24;
    std::string core_offset = "6 thou";
};

wire_material material(const std::string& name) {
    if (const auto m = find_wire_material(name)) { return *m; }
    std::string known;
    for (const auto& m : wire_materials()) { known += (known.empty() ? "" : ", ") + std::string(m.name); }
    throw invalid_input(problem{"material", '"' + name + '"', "must be one of: " + known});
}

/// A shop's stock: plain wire by the thousandth, wound strings in steps of two.
std::vector<music_string> make_stock(const wire_material& core, const wound_rule& rule, bool wound) {
    std::vector<music_string> stock;
    if (wound) {
        for (int g = 18; g <= 80; g += 2) { stock.push_back(wound_string(rule, g * thou)); }
    } else {
        for (int g = 7; g <= 30; ++g) { stock.push_back(plain_string(core, g * thou)); }
    }
    return stock;
}

std::string number_with(double v, int decimals) {
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%.*f", decimals, v);
    return buffer;
}
std::string padded(const std::string& text, std::size_t width) {
    return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

void choose(std::ostream& out, const request& r) {
    const auto named = find_tuning(r.tuning);
    const tuning t = named ? *named : parse_tuning(r.tuning);
    require_that(!is_treble_first(t), "tuning",
                 "must stand from bass to treble, but each note is lower than the one before: turn it round");
    const std::size_t courses = t.notes.size();
    const auto bass = quantity_from_text<length<double>>(r.scale, "scale");
    const auto treble = r.treble_scale.empty() ? bass : quantity_from_text<length<double>>(r.treble_scale, "treble scale");
    require_that(r.each_course >= 1 && r.each_course <= 3, "each-course", "must be 1, 2 or 3 strings");
    const auto total = quantity_from_text<force<double>>(r.total, "total");
    require("total", total, more_than_up_to(0 * N, 20000 * N));

    std::vector<string_place> places;
    for (std::size_t i = 0; i < courses; ++i) {
        const double share = courses == 1 ? 0 : static_cast<double>(i) / static_cast<double>(courses - 1);
        places.push_back({.speaking_length = bass + (treble - bass) * share, .pitch = pitch_of(t.notes[i])});
    }
    const force<double> courses_total = total / r.each_course;
    require_that(r.profile.empty() || r.profile.size() == courses, "profile", "must have one weight for each course");
    const auto wanted = !r.profile.empty()    ? shared_pull<double>(courses_total, r.profile)
                        : r.balance == "feel" ? even_feel<double>(courses_total, places)
                                              : shared_pull<double>(courses_total, std::vector<double>(courses, 1.0));

    const wound_rule rule{.core_material = material(r.core),
                          .core_share = r.core_share,
                          .core_offset = quantity_from_text<length<double>>(r.core_offset, "core-offset"),
                          .wrap_material = material(r.wrap)};
    const auto plain_stock = make_stock(rule.core_material, rule, false),
               wound_stock = make_stock(rule.core_material, rule, true);
    require_that(r.wound_from >= 0 && r.wound_from <= static_cast<int>(courses), "wound",
                 "must be 0 to the number of courses");

    out << "A set for " << r.tuning << ", " << fixed_text(bass, mm, 1);
    if (treble != bass) { out << " to " << fixed_text(treble, mm, 1); }
    out << " mm, " << fixed_text(total, N, 0) << " N (" << fixed_text(total, lbf, 0) << " lbf) wanted altogether"
        << (r.each_course > 1 ? ", " + std::to_string(r.each_course) + " strings a course" : "") << "\n"
        << "Plain: " << rule.core_material.name << ". Wound: " << rule.wrap_material.name << " on round "
        << rule.core_material.name << ", core " << fixed_text(rule.core_offset, thou, 1) << " thou + "
        << number_text(r.core_share) << " of the gauge.\n\n"
        << "  note   length   wanted    exact   stock   pull   off   core at   feel\n"
        << "             mm        N     thou    thou      N     %   % of its   N/mm\n"
        << "                                                       strength\n"
        << "  ------------------------------------------------------------------------\n";
    std::vector<force<double>> pulls;
    bool weak = false;
    for (std::size_t i = 0; i < courses; ++i) {
        const bool wound = i < static_cast<std::size_t>(r.wound_from);
        const auto& stock = wound ? wound_stock : plain_stock;
        const auto l = places[i].speaking_length;
        const std::optional<music_string> exact = wound ? for_tension(rule, wanted[i], l, places[i].pitch)
                                                        : for_tension(rule.core_material, wanted[i], l, places[i].pitch);
        const auto c = choose_set<double>(stock, {places[i]}, {wanted[i]})[0];
        const auto& s = stock[c.index];
        const auto half = length<double>(l / 2);
        const std::string share = c.share ? number_with(*c.share * 100, 0) : "?";
        weak = weak || (c.share && *c.share > strength_warning);
        out << "  " << padded(name_of(t.notes[i]), 4) << padded(fixed_text(length<double>(l), mm, 1), 9)
            << padded(fixed_text(wanted[i], N, 1), 9) << padded(exact ? fixed_text(gauge(*exact), thou, 1) : "none", 9)
            << padded(fixed_text(gauge(s), thou, 0) + (wound ? "w" : " "), 8) << padded(fixed_text(c.pull, N, 1), 7)
            << padded(number_with(c.off() / c.wanted * 100, 1), 6) << padded(share, 9)
            << padded(fixed_text(lateral_stiffness(c.pull, half, half), N_per_mm, 3), 10) << "\n";
        for (int k = 0; k < r.each_course; ++k) { pulls.push_back(c.pull); }
    }
    const auto sum = pull_of_string_set(pulls);
    out << "\n  All strings " << fixed_text(sum.total, N, 0) << " N (" << fixed_text(sum.total, lbf, 1) << " lbf), "
        << fixed_text(abs(sum.total - total), N, 0) << (sum.total < total ? " N less" : " N more")
        << " than wanted; bass side " << fixed_text(sum.bass, N, 0) << " N, treble side " << fixed_text(sum.treble, N, 0)
        << " N\n"
        << "  Feel: force for each millimetre pushed aside in the middle of the open string. w: wound\n";
    if (weak) {
        out << "  Above 70 % of its least strength music wire may yield, and a string is at risk; above 100 % it is "
               "expected to "
               "break.\n";
    }
    out << "\nA string at pitch can cut and can take an eye: slacken before working, wear eye protection. Old necks, tops "
           "and joints can\n"
           "fail at tensions they once bore: whether this one bears the set is for a qualified repairer to decide.\n";
}

} // namespace

int main(int argc, char** argv) {
    request r;
    CLI::App app{"Chooses a set of strings for a tuning, a scale and a pull, from a stock of gauges."};
    app.add_option("--tuning", r.tuning, "a tuning's name, or its notes from bass to treble");
    app.add_option("--scale", r.scale, "speaking length, of the bass string on a fan");
    app.add_option("--treble-scale", r.treble_scale, "speaking length of the treble string on a fan");
    app.add_option("--total", r.total, "pull of all strings together");
    app.add_option("--balance", r.balance, "tension: all strings pull alike; feel: all feel alike")
        ->check(CLI::IsMember({"tension", "feel"}));
    app.add_option("--profile", r.profile, "weights of the pulls instead, bass to treble")->delimiter(',');
    app.add_option("--each-course", r.each_course, "strings in each course");
    app.add_option("--wound", r.wound_from, "courses from the bass side that are wound");
    app.add_option("--core", r.core, "material of plain strings and cores");
    app.add_option("--wrap", r.wrap, "material of wraps");
    app.add_option("--core-share", r.core_share, "core as a share of the gauge of wound strings");
    app.add_option("--core-offset", r.core_offset, "the core is this and its share of the gauge");
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        return safe_text::printed(app.help(), "choose_set");
    } catch (const CLI::ParseError& e) { return app.exit(e) == 0 ? 0 : 2; }
    try {
        std::ostringstream out;
        choose(out, r);
        return safe_text::printed(out.str(), "choose_set");
    } catch (const invalid_input& e) {
        std::cerr << e.what() << '\n';
        return 2;
    }
}
