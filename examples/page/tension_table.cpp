// A table of tensions by gauge and note, and the formula of one tension with its numbers.

#include <charconv>
#include <cmath>

#include <tautline/core/any_from_text.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/core/to_text.hpp>
#include <tautline/strings/choice.hpp>
#include <tautline/strings/material_names.hpp>
#include <tautline/strings/tuning.hpp>

#include "../text/csv.hpp"
#include "answers.hpp"
#include "json.hpp"

namespace page {

namespace {

namespace tl = tautline;
using namespace tl::units;

/// The most rows and columns. Nobody reads a larger table.
constexpr std::size_t most_gauges = 60, most_notes = 24;

struct force_unit {
    const char* name;
    tl::unit_tag<tl::unit::force> tag;
    int decimals;
};
constexpr force_unit force_units[] = {{"N", N, 1}, {"lbf", lbf, 1}, {"kgf", kgf, 2}};

force_unit unit_named(std::string_view name) {
    for (const force_unit& u : force_units) {
        if (name == u.name) { return u; }
    }
    throw tl::invalid_input(tl::problem{"unit", '"' + std::string(name) + '"', "must be N, lbf or kgf"});
}
tl::wire_material material_named(std::string_view name, const char* field) {
    if (const auto m = tl::meant_wire_material<double>(name)) { return *m; }
    throw tl::invalid_input(tl::problem{field, '"' + std::string(name) + '"', tl::must_be_a_material(name)});
}
std::vector<tl::length<>> gauges_of(std::string_view list) {
    std::vector<tl::length<>> found;
    while (!list.empty()) {
        const std::string_view one = list.substr(0, list.find(','));
        list.remove_prefix(std::min(one.size() + 1, list.size()));
        const std::size_t first = one.find_first_not_of(" \t"), last = one.find_last_not_of(" \t");
        if (first == std::string_view::npos) { continue; }
        found.push_back(tl::quantity_from_text<tl::length<>>(one.substr(first, last - first + 1), "gauges"));
    }
    tl::require_that(!found.empty(), "gauges", "must name at least one length, as in \"10 thou, 13 thou\"");
    tl::require_that(found.size() <= most_gauges, "gauges", "must name at most 60 lengths");
    return found;
}
tl::tuning notes_of(std::string_view list) {
    try {
        const tl::tuning t = tl::parse_tuning(list);
        tl::require_that(t.notes.size() <= most_notes, "notes", "must name at most 24 notes");
        return t;
    } catch (const tl::invalid_input& e) {
        // All problems are about the one field on the page.
        std::vector<tl::problem> all = e.problems();
        for (tl::problem& p : all) { p.field = "notes"; }
        throw tl::invalid_input(all);
    }
}

/// The input of a table, read and checked.
struct table_request {
    std::vector<tl::length<>> gauges;
    tl::tuning notes;
    tl::length<> scale;
    tl::pitch_standard standard;
    tl::wire_material core;
    std::optional<tl::wire_material> wrap;
    tl::wound_rule rule;
    force_unit unit;

    explicit table_request(const question& q)
        : gauges(gauges_of(q.value("gauges"))), notes(notes_of(q.value("notes"))),
          scale(tl::quantity_from_text<tl::length<>>(q.value("scale"), "scale")),
          core(material_named(q.value("material"), "material")), unit(unit_named(q.value("unit"))) {
        standard.a4 = tl::quantity_from_text<tl::frequency<>>(q.value("a4"), "a4");
        tl::require_valid(standard, "");
        tl::require("scale", scale, tl::between(50 * mm, 3000 * mm));
        if (q.value("wrap").empty()) { return; }
        wrap = material_named(q.value("wrap"), "wrap");
        rule.core_material = core;
        rule.wrap_material = *wrap;
        rule.core_share = tl::any_from_text("number", q.value("core_share"), "core_share").si();
        rule.core_offset = tl::quantity_from_text<tl::length<>>(q.value("core_offset"), "core_offset");
        tl::require_valid(rule, "");
    }
    [[nodiscard]] tl::music_string string(const tl::length<>& gauge) const {
        return wrap ? tl::wound_string(rule, gauge) : tl::plain_string(core, gauge);
    }
    [[nodiscard]] std::string construction() const {
        return wrap ? std::string(wrap->name) + " wound on " + std::string(core.name) : "plain " + std::string(core.name);
    }
};

std::string gauge_text(const tl::length<>& g) {
    return tl::fixed_text(g, thou, 1) + " thou = " + tl::fixed_text(g, mm, 3) + " mm";
}
std::string percent(double share) { return std::to_string(std::lround(100 * share)) + " %"; }
/// The mark for a share of the core's strength.
const char* mark_of(const std::optional<double>& share) {
    return !share ? "" : *share > 1 ? "breaks" : *share > tl::strength_warning ? "near" : "";
}

/// All tensions as CSV, one row for each.
std::string csv_of(const table_request& r) {
    using safe_text::csv_field;
    const std::string unit = r.unit.name;
    std::string text = safe_text::csv_line({"construction", "gauge_thou", "gauge_mm", "scale_mm", "note", "pitch_hz",
                                            "mass_g_per_m", "tension_" + unit, "share_of_strength"}) +
                       "\r\n";
    for (const tl::length<>& gauge : r.gauges) {
        const auto s = r.string(gauge);
        for (const tl::note n : r.notes.notes) {
            const auto pull = tl::tension(s, r.scale, tl::pitch_of(n, r.standard));
            const auto share = tl::share_of_strength(s, pull);
            text += safe_text::csv_line({csv_field(r.construction()), tl::fixed_text(gauge, thou, 2),
                                         tl::fixed_text(gauge, mm, 4), tl::fixed_text(r.scale, mm, 2), tl::name_of(n),
                                         tl::fixed_text(tl::pitch_of(n, r.standard), Hz, 3),
                                         tl::fixed_text(tl::mass_per_length(s), g_per_m, 4),
                                         tl::fixed_text(pull, r.unit.tag, 3), share ? safe_text::csv_number(*share) : ""}) +
                    "\r\n";
        }
    }
    return text;
}

std::size_t index_of(const question& q, const char* key, std::size_t count) {
    const std::string_view said = q.value(key);
    std::size_t i = count;
    (void)std::from_chars(said.data(), said.data() + said.size(), i);
    tl::require_that(i < count, key, "must be one that the table has");
    return i;
}

} // namespace

std::string tension_table(const question& q) {
    const table_request r(q);
    std::vector<std::string> notes, rows;
    for (const tl::note n : r.notes.notes) { notes.push_back(json::text(tl::name_of(n))); }
    for (const tl::length<>& gauge : r.gauges) {
        const auto s = r.string(gauge);
        std::vector<std::string> cells;
        for (const tl::note n : r.notes.notes) {
            const auto pull = tl::tension(s, r.scale, tl::pitch_of(n, r.standard));
            const auto share = tl::share_of_strength(s, pull);
            cells.push_back(json::object({{"pull", json::text(tl::fixed_text(pull, r.unit.tag, r.unit.decimals))},
                                          {"share", json::text(share ? percent(*share) : "?")},
                                          {"mark", json::text(mark_of(share))},
                                          {"newton", json::number(pull / N)},
                                          {"of_strength", share ? json::number(*share) : "null"}}));
        }
        rows.push_back(json::object({{"thou", json::text(tl::fixed_text(gauge, thou, 1))},
                                     {"mm", json::text(tl::fixed_text(gauge, mm, 3))},
                                     {"mass", json::text(tl::fixed_text(tl::mass_per_length(s), g_per_m, 3))},
                                     {"cells", json::list(cells)}}));
    }
    std::vector<std::string> about{json::text(std::string(r.core.name) + ": " + std::string(r.core.source) + ".")};
    if (r.wrap) { about.push_back(json::text(std::string(r.wrap->name) + ": " + std::string(r.wrap->source) + ".")); }
    return json::object(
        {{"construction", json::text(r.construction())},
         {"scale", json::text(tl::fixed_text(r.scale, mm, 1) + " mm = " + tl::fixed_text(r.scale, inch, 3) + " in")},
         {"notes", json::list(notes)},
         {"rows", json::list(rows)},
         {"about", json::list(about)},
         {"csv", json::text(csv_of(r))}});
}

std::string tension_cell(const question& q) {
    const table_request r(q);
    const tl::length<> gauge = r.gauges[index_of(q, "row", r.gauges.size())];
    const tl::note n = r.notes.notes[index_of(q, "column", r.notes.notes.size())];
    const auto s = r.string(gauge);
    const auto pitch = tl::pitch_of(n, r.standard);
    const auto pull = tl::tension(s, r.scale, pitch);
    const auto slack = tl::tension(tl::mass_per_length(s), r.scale, pitch);
    const auto newton = [](const tl::force<>& f) { return tl::fixed_text(f, N, 2) + " N"; };
    std::vector<std::string> lines;
    const auto add = [&](const std::string& formula, const std::string& numbers) {
        lines.push_back(json::object({{"formula", json::text(formula)}, {"numbers", json::text(numbers)}}));
    };
    add("mass per length, slack: mu", tl::fixed_text(tl::mass_per_length(s), g_per_m, 4) + " g/m");
    add("mu (2 L f)^2", tl::fixed_text(tl::mass_per_length(s), g_per_m, 4) + " g/m x (2 x " +
                            tl::fixed_text(r.scale, mm, 1) + " mm x " + tl::fixed_text(pitch, Hz, 2) +
                            " Hz)^2 = " + newton(slack));
    add("T (1 + T/EA) is as much", newton(pull) + " x (1 + " + newton(pull) + " / " +
                                       tl::fixed_text(tl::axial_stiffness(s), N, 0) + " N) = " + newton(slack));
    add("tension T",
        newton(pull) + " = " + tl::fixed_text(pull, lbf, 2) + " lbf = " + tl::fixed_text(pull, kgf, 2) + " kgf");
    add("stress in the core: T / A", newton(pull) + " / " + tl::fixed_text(tl::core_area(s), mm2, 4) +
                                         " mm2 = " + tl::fixed_text(tl::core_stress(s, pull), MPa, 0) + " MPa");
    const auto breaking = tl::breaking_tension(s);
    if (const auto share = tl::share_of_strength(s, pull); share && breaking) {
        add("share of the core's least strength", newton(pull) + " / " + newton(*breaking) + " = " + percent(*share));
    } else {
        add("share of the core's least strength", "not known: no strength is known for this core");
    }
    return json::object({{"heading", json::text(tl::name_of(n) + " on " + gauge_text(gauge) + ", " + r.construction())},
                         {"lines", json::list(lines)},
                         {"source", json::text("Mersenne's law; mass thinned by stretch (Hooke's law). Least strength: "
                                               "ASTM A228 for music wire, else the material's own.")}});
}

} // namespace page
