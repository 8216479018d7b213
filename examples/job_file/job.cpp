#include "job.hpp"

#include <utility>

#include <tautline/instrument/neck_woods.hpp>
#include <tautline/job/typed_names.hpp>

#include "job_depth.hpp"
#include "loose_characters.hpp"
#include "toml_reader.hpp"

namespace job_file {

std::uint32_t line_near(std::string path, const file_notes& file) {
    const std::string told = path;
    while (!path.empty() && !file.lines.count(path)) {
        const std::size_t cut = path.find_last_of(".[");
        path = path.substr(0, cut == std::string::npos ? 0 : cut);
    }
    const auto it = file.lines.find(path);
    if (it != file.lines.end() && it->second > 0) { return it->second; }
    // Planned values that the file leaves out begin as found.
    return tl::is_planned(told) ? line_near(std::string(tl::as_found(told)), file) : 0;
}

namespace {

constexpr std::string_view planned = "planned";

/// Whether a mistake was already told of a key, or of its section or list.
bool told_of(std::string_view path, const std::vector<mistake>& mistakes) {
    return std::any_of(mistakes.begin(), mistakes.end(),
                       [&](const mistake& m) { return !m.path.empty() && tl::is_at_or_below(path, m.path); });
}

/// Adds the mistakes that the library finds; its paths are the file's. A key that the reader has reported is not reported
/// again, and a mistake as found is not repeated for the plan, which begins as found.
void add_problems(const std::vector<tl::problem>& problems, read_job& out) {
    const std::vector<mistake> before = out.mistakes;
    std::vector<std::string> now;
    for (const tl::problem& p : problems) {
        const bool repeated = std::find(now.begin(), now.end(), tl::as_found(p.field)) != now.end();
        if (told_of(p.field, before) || told_of(tl::as_found(p.field), before) || repeated) { continue; }
        now.push_back(p.field);
        out.mistakes.push_back({line_near(p.field, out.file), shown(p.sentence()), p.field});
    }
}

/// When a file does not name courses, every string is a course of its own.
void single_strings(tl::instrument& built, const std::string& under, std::size_t count, file_notes& file) {
    const std::pair<const char*, tl::spacing*> rows[] = {{"nut", &built.nut.spacing}, {"saddle", &built.saddle.spacing}};
    for (const auto& [part, row] : rows) {
        const std::string key = std::string(part) + ".spacing.courses";
        if (file.lines.count(key) > 0 || file.lines.count(under + key) > 0 || count == 0) { continue; }
        row->courses.assign(count, 1);
        if (!under.empty()) { file.given.push_back(under + key); }
    }
}

/// Checks pairs of correlated measurements: each measurement must have its doubt, and each pair may be named once.
void check_correlated(read_job& out) {
    std::vector<std::pair<std::string, std::string>> met;
    const tl::string_names names = tl::names_of(tl::courses_of(out.job.instrument), out.job.strings);
    for (std::size_t i = 0; i < out.job.correlated.size(); ++i) {
        auto& c = out.job.correlated[i];
        const std::string path = "correlated[" + std::to_string(i) + "]";
        for (const auto& [name, key] : {std::pair{"first", &c.first}, std::pair{"second", &c.second}}) {
            const std::string at = path + "." + name;
            try {
                *key = tl::typed_path(*key, names, at);
            } catch (const tl::invalid_input& e) {
                out.mistakes.push_back({line_near(at, out.file), shown(e.what())});
                continue;
            }
            if (!out.file.doubts.count(*key)) {
                out.mistakes.push_back(
                    {line_near(at, out.file),
                     at + " is \"" + shown(*key) + "\"; expected the key of a measurement that says \"give or take\""});
            }
        }
        const auto pair = std::minmax(c.first, c.second);
        const std::pair<std::string, std::string> kept{pair.first, pair.second};
        if (c.first == c.second || std::find(met.begin(), met.end(), kept) != met.end()) {
            out.mistakes.push_back({line_near(path, out.file), path + " must name two different keys, each pair once"});
        }
        met.push_back(kept);
    }
}

/// A mistake about one string says which string it is, if that is known. The path alone counts from 0 at the bass.
void name_strings(read_job& out) {
    const auto courses = tl::courses_of(out.job.instrument);
    for (mistake& m : out.mistakes) {
        for (const std::string_view list : {"planned.strings[", "strings["}) {
            const std::size_t at = m.text.find(list);
            if (at == std::string::npos) { continue; }
            const std::size_t end = std::min(m.text.find_first_of(" \":", at), m.text.size());
            const auto& orders = list.starts_with(planned) ? out.job.last_strings() : out.job.strings;
            const tl::string_names names = tl::names_of(courses, orders);
            const auto i = tl::string_of_path(m.text.substr(at, end - at));
            if (i && names.size() == orders.size() && !names.number(*i).empty()) {
                const std::size_t behind = end < m.text.size() && m.text[end] == '"' ? end + 1 : end;
                m.text.insert(behind, " (" + names.label(*i) + ")");
            }
            break;
        }
    }
}

/// Strings end on one thing. If a plan names another one, it replaces the found one and everything that belongs to that
/// alone.
void drop_other_ends(const toml::table& table, tl::overlay& changes) {
    auto& values = changes.values;
    const auto drop = [&](auto& part, const char* name, std::initializer_list<const char*> for_these) {
        const auto named = [&](const char* other) { return table.contains(other); };
        if (table.contains(name) || std::none_of(for_these.begin(), for_these.end(), named)) { return; }
        if (part) { changes.paths.emplace_back(name); }
        part.reset();
    };
    drop(values.tailpiece, "tailpiece", {"pins", "tie_block", "body_bridge"});
    drop(values.pins, "pins", {"tailpiece", "tie_block", "body_bridge"});
    drop(values.tie_block, "tie_block", {"tailpiece", "pins", "body_bridge"});
    drop(values.body_bridge, "body_bridge", {"tailpiece", "pins", "tie_block"});
    drop(values.pressing_bar, "pressing_bar", {"pins", "tie_block"});
    drop(values.feet, "feet", {"pins", "tie_block", "body_bridge"});
    drop(values.soundboard, "soundboard", {"body_bridge"});
}

/// Fills in moduli that a section of a neck leaves out, from the names of its woods. If a name brings none, only the name
/// is reported, and not a missing key as well.
/// @return what was filled in: "neck.board", "neck.back"
std::vector<std::string> take_moduli(const toml::table& table, const std::string& under, tl::neck_measures& neck,
                                     read_job& out) {
    std::vector<std::string> brought;
    const auto* section = table["neck"].as_table();
    if (!section) { return brought; }
    const auto take = [&](const std::string& part, auto wood, auto modulus, auto method) {
        const auto* name = (*section)[part + "_wood"].as_string();
        if (!name || name->get().empty() || section->contains(part + "_modulus")) { return; }
        if (const toml::node* how = section->get(part + "_method")) {
            const std::string key = under + "neck." + part + "_method";
            out.mistakes.push_back({line_of(*how),
                                    key + " must be left out where " + part + "_modulus is: the modulus that " + part +
                                        "_wood brings is as bending tests give it",
                                    key});
        }
        tl::neck_measures named;
        named.*wood = name->get();
        neck.*modulus = 1 * tl::units::GPa; // so that it is not reported as missing
        neck.*method = tl::modulus_method::not_told;
        brought.push_back("neck." + part);
        try {
            tl::take_moduli(named);
            neck.*modulus = named.*modulus;
        } catch (const tl::invalid_input& e) {
            for (tl::problem p : e.problems()) {
                p.field = under + "neck." + p.field;
                out.mistakes.push_back({name->source().begin.line, shown(p.sentence()), p.field});
            }
        }
    };
    using measures = tl::neck_measures;
    take("board", &measures::board_wood, &measures::board_modulus, &measures::board_method);
    take("back", &measures::back_wood, &measures::back_modulus, &measures::back_method);
    return brought;
}

/// Reads a plan for single strings of a set: fewer sections than strings, each with the number of its string. A section is
/// read in its string's place, so that paths are those of the whole set.
/// @return whether the plan is of this form
bool read_single_strings(const toml::table& table, read_job& out) {
    const auto* sections = table["strings"].as_array();
    const auto& found = out.job.strings;
    if (!sections || sections->empty() || sections->size() >= found.size()) { return false; }
    const tl::string_names names = tl::names_of(tl::courses_of(out.job.instrument), found);
    const std::string list = std::string(planned) + ".strings";
    const auto numbered = [](const toml::node& one) {
        const toml::node* number = one.is_table() ? one.as_table()->get("number") : nullptr;
        return number && (number->is_integer() || number->is_string());
    };
    if (!std::all_of(sections->begin(), sections->end(), numbered) || names.size() != found.size()) {
        // The sections are read on as a whole set, so that other mistakes are reported too.
        out.mistakes.push_back(
            {line_of(*sections), list + " has " + std::to_string(sections->size()) + " entries, the set " +
                                     std::to_string(found.size()) +
                                     "; expected the whole set, or the number of each string that is new"});
        return false;
    }
    auto& plan = *out.job.planned;
    plan.strings = found;
    out.file.lines[list] = line_of(*sections);
    for (const toml::node& one : *sections) {
        const toml::node& number = *one.as_table()->get("number");
        const auto whole = number.value<std::int64_t>();
        const auto place = names.place_of(whole ? std::to_string(*whole) : number.value<std::string>().value_or(""));
        const bool twice = place && !plan.new_strings.empty() && plan.renews(*place);
        if (!place || twice) {
            out.mistakes.push_back({line_of(number),
                                    list + " has the number " + as_written(number) + "; expected " +
                                        (twice ? "each string once" : "that of a string: there are " + names.range()),
                                    list});
            continue;
        }
        // A new string keeps nothing of the old one but its note.
        tl::ordered_string& order = plan.strings[*place];
        order = tl::ordered_string();
        order.note = found[*place].note;
        plan.new_strings.push_back(*place);
        const std::string path = list + "[" + std::to_string(*place) + "]";
        out.file.given.push_back(path);
        table_reader::read(*one.as_table(), path, order, out.mistakes, out.file);
    }
    return true;
}

/// Reads the planned values over the found ones.
void read_plan(toml::table& table, read_job& out) {
    tl::job_plan& plan = out.job.planned.emplace(tl::plan_as_found(out.job));
    plan.objects = out.job.objects;
    drop_other_ends(table, plan.changes);
    const std::vector<mistake> of_found = std::exchange(out.mistakes, {});
    for (const std::string& part : take_moduli(table, "planned.", plan.changes.values.neck, out)) {
        // A planned wood is no longer the measured one.
        plan.changes.paths.push_back(part + "_modulus");
        plan.changes.paths.push_back(part + "_method");
    }
    if (read_single_strings(table, out)) { table.erase("strings"); }
    table_reader::read(table, std::string(planned), plan, out.mistakes, out.file);
    std::erase_if(out.mistakes, [&](const mistake& m) { return told_of(tl::as_found(m.path), of_found); });
    out.mistakes.insert(out.mistakes.begin(), of_found.begin(), of_found.end());
    if (!table.contains("objects")) { plan.objects.reset(); }
    single_strings(plan.changes.values, "planned.", out.job.last_strings().size(), out.file);
    for (const std::string& key : out.file.given) {
        if (tl::is_planned(key)) { plan.changes.paths.emplace_back(tl::as_found(key)); }
    }
}

/// Applies the rules of a job to what could be read of it. Rules between parts apply even if a part is wrong.
void check_rules(read_job& out) {
    std::vector<tl::problem> found = tl::validate(out.job);
    const auto report = [&](std::string_view path, std::string_view rule, std::string_view value = {}) {
        const bool there = std::any_of(found.begin(), found.end(), [&](const tl::problem& p) { return p.field == path; });
        if (!there) { found.push_back({std::string(path), std::string(value), std::string(rule)}); }
    };
    const auto courses = tl::courses_of(out.job.instrument);
    tl::report_order(courses, out.job.strings, "strings", report);
    if (out.job.planned) {
        for (const tl::problem& p : tl::validate(out.job.planned->work(), planned)) { report(p.field, p.allowed, p.value); }
        tl::report_order(tl::courses_of(out.job.planned->changes.values), out.job.planned->strings, "planned.strings",
                         report);
    }
    add_problems(found, out);
}

} // namespace

read_job parse_job(std::string_view text) {
    read_job out;
    toml::table table;
    if (text.size() > longest_job_file) {
        out.mistakes.push_back({0, "the file is longer than a job file may be (1 MiB)"});
        return out;
    }
    const ascii_text ascii = in_ascii(text);
    if (ascii.loose_line) {
        out.mistakes.push_back(
            {*ascii.loose_line,
             "this is not TOML: a character that may stand in double quotes only is outside quotes, or is "
             "not UTF-8; write quantities as text: \"5 ± 0.1 mm\""});
        return out;
    }
    if (const auto deep = too_deep(ascii.text)) {
        out.mistakes.push_back(*deep);
        return out;
    }
    try {
        table = toml::parse(ascii.text);
    } catch (const toml::parse_error& e) {
        out.mistakes.push_back({e.source().begin.line, "this is not TOML: " + shown(e.description())});
        return out;
    } catch (const broken_assumption&) {
        out.mistakes.push_back({0, "this is not TOML: a section's or key's name is broken"});
        return out;
    }
    // The plan is read over the found values, so it comes second.
    std::optional<toml::table> plan;
    if (toml::node* node = table.get(planned)) {
        if (node->is_table()) {
            plan = std::move(*node->as_table()); // a copy would not know its lines
        } else {
            out.mistakes.push_back({line_of(*node), "planned is " + as_written(*node) + "; expected a section"});
        }
        table.erase(planned);
    }
    take_moduli(table, "", out.job.instrument.neck, out);
    table_reader::read(table, "", out.job, out.mistakes, out.file);
    single_strings(out.job.instrument, "", out.job.strings.size(), out.file);
    if (plan) { read_plan(*plan, out); }
    for (const auto& [path, standard] : out.file.doubts) { out.job.doubts.push_back({path, standard}); }
    check_rules(out);
    check_correlated(out);
    name_strings(out);
    std::stable_sort(out.mistakes.begin(), out.mistakes.end(),
                     [](const mistake& a, const mistake& b) { return a.line < b.line; });
    return out;
}

} // namespace job_file
