// Tables of string tension: gauge by note, for each material and each scale, as text, CSV or Markdown.
//
//   tension_table --gauges "9 thou, 10 thou, 11 thou" --notes "B3 E4" --scales "25.5 in" --unit lbf
//   tension_table --wrap "phosphor bronze" --gauges "42 thou, 47 thou" --notes "E2 A2" --format markdown

#include <iostream>
#include <sstream>

#include <CLI/CLI.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/strings/choice.hpp>
#include <tautline/strings/tuning.hpp>
#include <tautline/strings/wire_materials.hpp>

#include "../../text/columns.hpp"
#include "../../text/printed.hpp"
#include "table.hpp"

using namespace tautline;
using tension_table::table;

namespace {

struct request {
    std::string gauges = "8 thou, 9 thou, 10 thou, 11 thou, 12 thou, 13 thou, 14 thou, 16 thou, 18 thou, 20 thou";
    std::string materials = "music wire";
    std::string notes = "G3 A3 B3 D4 E4 G4";
    std::string scales = "25 1/2 in";
    std::string wrap;
    double core_share = 0.24;
    std::string core_offset = "6 thou";
    std::string a4 = "440 Hz";
    std::string unit = "N";
    std::string format = "text";
};

struct force_unit {
    const char* name;
    unit_tag<unit::force> tag;
    int decimals;
};

/// The parts of a list between commas, without spaces around.
std::vector<std::string> parts(const std::string& list) {
    std::vector<std::string> found;
    std::istringstream text(list);
    for (std::string part; std::getline(text, part, ',');) {
        const auto first = part.find_first_not_of(' '), last = part.find_last_not_of(' ');
        if (first != std::string::npos) { found.push_back(part.substr(first, last - first + 1)); }
    }
    return found;
}
std::vector<length<double>> lengths(const std::string& list, const char* field) {
    std::vector<length<double>> found;
    for (const auto& part : parts(list)) { found.push_back(quantity_from_text<length<double>>(part, field)); }
    require_that(!found.empty(), field, "must name at least one length");
    return found;
}
wire_material material(const std::string& name) {
    if (const auto m = find_wire_material(name)) { return *m; }
    std::string known;
    for (const auto& m : wire_materials()) { known += (known.empty() ? "" : ", ") + std::string(m.name); }
    throw invalid_input(problem{"material", '"' + name + '"', "must be one of: " + known});
}
force_unit unit_named(const std::string& name) {
    for (const force_unit& u : {force_unit{"N", units::N, 1}, {"lbf", units::lbf, 1}, {"kgf", units::kgf, 2}}) {
        if (name == u.name) { return u; }
    }
    throw invalid_input(problem{"unit", '"' + name + '"', "must be N, lbf or kgf"});
}

/// What a table is about, read and checked.
struct job {
    std::vector<length<double>> gauges, scales;
    std::vector<wire_material> materials;
    tuning notes;
    pitch_standard standard;
    std::optional<wire_material> wrap;
    wound_rule rule;
    force_unit unit;

    explicit job(const request& r)
        : gauges(lengths(r.gauges, "gauges")), scales(lengths(r.scales, "scales")), notes(parse_tuning(r.notes)),
          unit(unit_named(r.unit)) {
        for (const auto& name : parts(r.materials)) { materials.push_back(material(name)); }
        require_that(!materials.empty(), "materials", "must name at least one material");
        standard.a4 = quantity_from_text<frequency<double>>(r.a4, "a4");
        require_valid(standard, "standard");
        if (!r.wrap.empty()) { wrap = material(r.wrap); }
        rule.core_share = r.core_share;
        rule.core_offset = quantity_from_text<length<double>>(r.core_offset, "core-offset");
    }
    [[nodiscard]] music_string string(const wire_material& m, const length<double>& gauge) const {
        if (!wrap) { return plain_string(m, gauge); }
        wound_rule with = rule;
        with.core_material = m;
        with.wrap_material = *wrap;
        return wound_string(with, gauge);
    }
    [[nodiscard]] std::string construction(const wire_material& m) const {
        if (!wrap) { return "plain " + std::string(m.name); }
        return std::string(wrap->name) + " wound on round " + std::string(m.name) + ", core " +
               fixed_text(rule.core_offset, units::thou, 1) + " thou + " + number_text(rule.core_share) + " of the gauge";
    }
};

std::string gauge_text(const length<double>& g) { return fixed_text(g, units::thou, 1); }

/// Every combination in a row of its own: for programs and spreadsheets.
table flat(const job& j) {
    table t{{"construction", "gauge_thou", "gauge_mm", "scale_mm", "note", "pitch_hz", "mass_g_per_m",
             "tension_" + std::string(j.unit.name), "core_stress_mpa", "share_of_strength"},
            {}};
    for (const auto& m : j.materials) {
        for (const auto& scale : j.scales) {
            for (const auto& gauge : j.gauges) {
                for (const note n : j.notes.notes) {
                    const auto s = j.string(m, gauge);
                    const auto pull = tension(s, scale, pitch_of(n, j.standard));
                    const auto share = share_of_strength(s, pull);
                    t.rows.push_back({j.construction(m), gauge_text(gauge), fixed_text(gauge, units::mm, 3),
                                      fixed_text(scale, units::mm, 2), name_of(n),
                                      fixed_text(pitch_of(n, j.standard), units::Hz, 3),
                                      fixed_text(mass_per_length(s), units::g_per_m, 4), fixed_text(pull, j.unit.tag, 3),
                                      fixed_text(core_stress(s, pull), units::MPa, 1),
                                      share ? number_text(std::round(*share * 1000) / 1000) : ""});
                }
            }
        }
    }
    return t;
}

/// Gauges down, notes across. `*` and `!` mark what the core's strength has to say.
table matrix(const job& j, const wire_material& m, const length<double>& scale) {
    table t{{"gauge thou", "mm", "g/m"}, {}};
    for (const note n : j.notes.notes) { t.head.push_back(name_of(n) + " "); } // room for the marks
    for (const auto& gauge : j.gauges) {
        const auto s = j.string(m, gauge);
        std::vector<std::string> row{gauge_text(gauge), fixed_text(gauge, units::mm, 3),
                                     fixed_text(mass_per_length(s), units::g_per_m, 3)};
        for (const note n : j.notes.notes) {
            const auto pull = tension(s, scale, pitch_of(n, j.standard));
            const double share = share_of_strength(s, pull).value_or(0);
            row.push_back(fixed_text(pull, j.unit.tag, j.unit.decimals) + (share > 1                  ? "!"
                                                                           : share > strength_warning ? "*"
                                                                                                      : " "));
        }
        t.rows.push_back(std::move(row));
    }
    return t;
}

void page(std::ostream& out, const job& j, bool markdown) {
    out << (markdown ? "# " : "") << "String tension in " << j.unit.name << "\n\n";
    for (const auto& m : j.materials) {
        for (const auto& scale : j.scales) {
            out << (markdown ? "## " : "") << static_cast<char>(std::toupper(j.construction(m)[0]))
                << j.construction(m).substr(1) << "; speaking length " << fixed_text(scale, units::mm, 1) << " mm ("
                << inch_fraction_text(scale) << " in); A4 = " << fixed_text(j.standard.a4, units::Hz, 1) << " Hz\n\n";
            const table t = matrix(j, m, scale);
            markdown ? tension_table::write_markdown(out, t) : tension_table::write_text(out, t);
            out << '\n';
        }
    }
    const char* item = markdown ? "- " : "  ";
    out << "T = mu (2 L f)^2 (Mersenne), mu the mass per length at pitch: the slack mass per length in the table, less "
           "what the\n"
           "string stretches on its way, T (1 + T/EA) = mu_slack (2 L f)^2.\n\n";
    bool graded = false;
    const auto about = [&](const wire_material& m) {
        out << safe_text::wrapped(std::string(m.name) + ": " + fixed_text(m.mass_density, units::kg_per_m3, 0) +
                                      " kg/m3, E " + fixed_text(m.modulus, units::GPa, 1) + " GPa. " +
                                      std::string(m.source) + ".",
                                  item, 118);
        graded = graded || m.grade == wire_grade::music_wire;
    };
    for (const auto& m : j.materials) { about(m); }
    if (j.wrap) { about(*j.wrap); }
    if (graded) {
        out << "\n* the core bears over 70 % of its least strength (music wire may yield there)   ! over all of it: it "
               "breaks\n";
    }
    out << "\nA string at pitch can cut and can take an eye: slacken before working, wear eye protection. Whether an old "
           "neck, top or\n"
           "joint bears these pulls is for a qualified repairer to decide.\n";
}

} // namespace

int main(int argc, char** argv) {
    request r;
    CLI::App app{"Tables of string tension: gauge by note, for each material and scale."};
    app.add_option("--gauges", r.gauges, "diameters with units, commas between");
    app.add_option("--materials", r.materials, "materials of the string, or of the core, commas between");
    app.add_option("--notes", r.notes, "notes in scientific pitch notation, spaces between");
    app.add_option("--scales", r.scales, "speaking lengths with units, commas between");
    app.add_option("--wrap", r.wrap, "material of a wrap: the strings are then wound, close, with round wire");
    app.add_option("--core-share", r.core_share, "core as a share of the gauge of wound strings");
    app.add_option("--core-offset", r.core_offset, "the core is this and its share of the gauge");
    app.add_option("--a4", r.a4, "pitch of A4");
    app.add_option("--unit", r.unit, "N, lbf or kgf");
    app.add_option("--format", r.format, "text, csv or markdown")->check(CLI::IsMember({"text", "csv", "markdown"}));
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        return safe_text::printed(app.help(), "tension_table");
    } catch (const CLI::ParseError& e) { return app.exit(e) == 0 ? 0 : 2; }
    try {
        // Built whole before anything is printed.
        std::ostringstream out;
        const job j(r);
        if (r.format == "csv") {
            tension_table::write_csv(out, flat(j));
        } else {
            page(out, j, r.format == "markdown");
        }
        return safe_text::printed(out.str(), "tension_table");
    } catch (const invalid_input& e) {
        std::cerr << e.what() << '\n';
        return 2;
    }
}
