#include "job.hpp"

#include <memory>
#include <utility>

#include <tautline/setup/meaning.hpp>
#include <tautline/setup/string_order.hpp>
#include <tautline/strings/wire_materials.hpp>

#include "job_depth.hpp"
#include "loose_characters.hpp"
#include "toml_reader.hpp"
#include "typed_path.hpp"

namespace bench_sheet {

std::uint32_t line_near(std::string path, const file_notes& file) {
    while (!path.empty() && !file.lines.count(path)) {
        const std::size_t cut = path.find_last_of(".[");
        path = path.substr(0, cut == std::string::npos ? 0 : cut);
    }
    const auto it = file.lines.find(path);
    return it != file.lines.end() ? it->second : 0;
}

namespace {

/// Whether a path is that of a key, or of something that stands in it.
bool stands_in(const std::string& path, const std::string& key) {
    if (key.empty() || path.rfind(key, 0) != 0) { return false; }
    return path.size() == key.size() || path[key.size()] == '.' || path[key.size()] == '[';
}
/// Whether a mistake has been told of a key, or of a section or list it stands in.
bool told_of(const std::string& path, const std::vector<mistake>& mistakes) {
    return std::any_of(mistakes.begin(), mistakes.end(), [&](const mistake& m) { return stands_in(path, m.path); });
}

/// The string that is ordered, or the mistakes in its order.
std::optional<tl::tuned_string> make_string(const ordered_string& order, const std::string& path, const file_notes& file,
                                            std::vector<mistake>& found) {
    const auto line = [&](const std::string& key) { return line_near(path + "." + key, file); };
    const auto material = [&](const std::string& key, const std::string& name) {
        const auto m = tl::find_wire_material(name);
        if (!m) {
            std::string known;
            for (const auto& k : tl::wire_materials()) { known += (known.empty() ? "" : ", ") + std::string(k.name); }
            found.push_back(
                {line(key), path + "." + key + " is \"" + shown(name) + "\"; expected one of: " + known, path + "." + key});
        }
        return m.value_or(tl::music_wire());
    };
    tl::tuned_string s;
    try {
        s.pitch = tl::parse_note(order.note);
    } catch (const tl::invalid_input& e) {
        const auto& p = e.problems().front();
        if (!order.note.empty()) {
            found.push_back(
                {line("note"), path + ".note is \"" + shown(order.note) + "\"; it " + p.allowed, path + ".note"});
        }
    }
    const auto core_material = material("material", order.material);
    if (order.core.has_value() != !order.wrap.empty()) {
        found.push_back(
            {line(order.core ? "core" : "wrap"),
             path + ": a wound string needs both \"core\" (a diameter) and \"wrap\" (a material), a plain one neither",
             path});
    }
    if (order.core && order.gauge >= thinnest_string && !(*order.core < order.gauge)) {
        found.push_back({line("core"), path + ".core must be less than the string's gauge", path + ".core"});
    }
    const auto wrap_material = order.wrap.empty() ? core_material : material("wrap", order.wrap);
    // A gauge that could not be read is among the mistakes already.
    const bool wrong = std::any_of(found.begin(), found.end(), [&](const mistake& m) { return stands_in(m.path, path); });
    if (wrong) { return std::nullopt; }
    s.string = order.core ? tl::wound_string({.gauge = order.gauge,
                                              .core = *order.core,
                                              .core_material = core_material,
                                              .wrap_material = wrap_material})
                          : tl::plain_string(core_material, order.gauge);
    return s;
}

tl::stringing string_up(const std::vector<ordered_string>& orders, const std::string& path, const tl::frequency<>& a4,
                        read_job& out) {
    tl::stringing set;
    set.standard.a4 = a4;
    for (std::size_t i = 0; i < orders.size(); ++i) {
        if (auto s = make_string(orders[i], path + "[" + std::to_string(i) + "]", out.file, out.mistakes)) {
            set.strings.push_back(*s);
        }
    }
    return set;
}

/// Rules between keys: the library's own, whose paths are the file's. What the reader has told of a key is not said again.
void add_problems(const std::vector<tl::problem>& problems, const std::string& under, read_job& out) {
    const std::vector<mistake> before = out.mistakes;
    for (const tl::problem& p : problems) {
        const std::string path = under.empty() || p.field.empty() ? under + p.field : under + "." + p.field;
        if (told_of(path, before)) { continue; }
        const tl::problem told{path, p.value, p.allowed};
        out.mistakes.push_back({line_near(path, out.file), shown(told.sentence()), path});
    }
}

/// What is wrong as found would be told again of the plan, which begins as found.
void drop_repeated(std::vector<mistake>& of_plan, const std::vector<mistake>& of_found) {
    const std::string plan = "planned.";
    std::erase_if(of_plan, [&](const mistake& m) {
        return told_of(m.path.rfind(plan, 0) == 0 ? m.path.substr(plan.size()) : m.path, of_found);
    });
}

/// What stands in one system of anchors drops the other: a plan may go from tailpiece to pins.
void drop_other_anchor(const toml::table& planned, tl::instrument& built) {
    if (planned.contains("pins") && !planned.contains("tailpiece")) { built.tailpiece.reset(); }
    if (planned.contains("tailpiece") && !planned.contains("pins")) { built.pins.reset(); }
    if (planned.contains("pins") && !planned.contains("feet")) { built.feet.reset(); }
}

/// Courses that a file does not name are single strings, as many as it has.
void single_strings(tl::instrument& built, const std::string& under, std::size_t count, const file_notes& file) {
    const std::pair<const char*, tl::spacing*> rows[] = {{"nut", &built.nut.spacing}, {"saddle", &built.saddle.spacing}};
    for (const auto& [part, row] : rows) {
        const std::string key = std::string(part) + ".spacing.courses";
        const bool named = file.lines.count(key) > 0 || file.lines.count(under + key) > 0;
        if (!named && count > 0) { row->courses.assign(count, 1); }
    }
}

/// A note, or one that has no name: what is wrong with it is told where the string is made. (Returned from within `try`:
/// g++ 12 drops what stood in a variable that a throwing call was to be assigned to.)
tl::note note_or_none(const std::string& text) {
    try {
        return tl::parse_note(text);
    } catch (const tl::invalid_input&) { return {-1}; }
}

/// What the strings of a list are called, as far as their notes can be read.
tl::string_names ordered_names(const tl::instrument& built, const std::vector<ordered_string>& orders) {
    tl::string_names names{.courses = built.nut.spacing.courses, .notes = {}};
    for (const ordered_string& o : orders) { names.notes.push_back(note_or_none(o.note)); }
    return names;
}

/// Pairs that err together must name measurements that say how sure they are, each pair once.
void check_correlated(read_job& out) {
    std::vector<std::pair<std::string, std::string>> met;
    const tl::string_names names = ordered_names(out.found.instrument, out.found.strings);
    for (std::size_t i = 0; i < out.found.correlated.size(); ++i) {
        auto& c = out.found.correlated[i];
        const std::string path = "correlated[" + std::to_string(i) + "]";
        for (const auto& [name, key] : {std::pair{"first", &c.first}, std::pair{"second", &c.second}}) {
            const std::string at = path + "." + name;
            try {
                *key = typed_path(*key, names, at);
            } catch (const wrong_option& e) {
                out.mistakes.push_back({line_near(at, out.file), e.what()});
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

/// Work on a neck that is held as it will be leaves its hollow at pitch, whatever else is set: a relief that is wanted as
/// well must be the same.
void check_held(const planned_part& plan, read_job& out) {
    const auto check = [&](const char* key, const auto& part) {
        const auto& relief = out.found.wanted.relief;
        if (!part || part->held != tl::neck_held::as_it_will_be || !relief) { return; }
        if (tl::abs(*relief - part->hollow) < 0.001 * tl::units::mm) { return; }
        const std::string path = std::string("planned.") + key + ".held";
        out.mistakes.push_back({line_near(path, out.file),
                                path + " is \"as it will be\": at pitch the relief is then the hollow, " +
                                    tl::quantity_text<tl::unit::length>(part->hollow.value()) + ", but wanted.relief is " +
                                    tl::quantity_text<tl::unit::length>(relief->value()) +
                                    "; make both the same, or hold the neck otherwise"});
    };
    check("sanding", plan.sanding);
    check("levelling", plan.levelling);
}

/// Strings stand bass first; a number that is given must be that of its place.
void check_order(const tl::instrument& built, const std::vector<ordered_string>& orders, const tl::stringing& set,
                 const std::string& path, read_job& out) {
    const tl::string_names names = ordered_names(built, orders);
    if (names.size() != orders.size()) { return; } // told elsewhere
    if (set.strings.size() == orders.size() && tl::is_listed_treble_first(names.courses, set.strings)) {
        out.mistakes.push_back({line_near(path, out.file), path + " " + tl::listed_treble_first});
        return;
    }
    for (std::size_t i = 0; i < orders.size(); ++i) {
        const std::string& given = orders[i].number.text;
        if (given.empty() || names.find(given) == i) { continue; }
        const std::string key = path + "[" + std::to_string(i) + "].number";
        out.mistakes.push_back({line_near(key, out.file), key + " is \"" + shown(given) + "\"; expected " +
                                                              names.number(i) +
                                                              ": the list stands bass first, and this is " + names.name(i) +
                                                              "; there are " + names.range()});
    }
}

/// Mistakes about one string say which it is, where that can be seen: the line's path alone counts from the bass and from
/// 0.
void name_strings(read_job& out) {
    for (mistake& m : out.mistakes) {
        for (const std::string_view under : {"planned.", ""}) {
            const bool own = out.planned && !out.planned->strings.empty();
            const auto& orders = !under.empty() && own ? out.planned->strings : out.found.strings;
            const std::string list = std::string(under) + "strings[";
            const std::size_t at = m.text.find(list);
            if (at == std::string::npos) { continue; }
            const std::size_t end = std::min(m.text.find_first_of(" \":", at), m.text.size());
            const tl::string_names names = ordered_names(out.found.instrument, orders);
            const auto i = tl::string_of_path(m.text.substr(at, end - at));
            if (i && names.size() == orders.size() && !names.number(*i).empty()) {
                const std::size_t behind = end < m.text.size() && m.text[end] == '"' ? end + 1 : end;
                m.text.insert(behind, " (" + names.label(*i) + ")");
            }
            break;
        }
    }
}

void read_plan(const toml::table& table, read_job& out) {
    planned_part plan;
    plan.title = out.found.title;
    plan.a4 = out.found.a4;
    plan.objects = out.found.objects;
    plan.built = out.found.instrument;
    drop_other_anchor(table, plan.built);
    table_reader::read(table, "planned", plan, out.mistakes, out.file);
    const bool own_strings = !plan.strings.empty();
    const std::size_t string_count = (own_strings ? plan.strings : out.found.strings).size();
    single_strings(plan.built, "planned.", string_count, out.file);
    if (own_strings) {
        out.planned_strings = string_up(plan.strings, "planned.strings", plan.a4, out);
        check_order(plan.built, plan.strings, *out.planned_strings, "planned.strings", out);
    } else if (plan.a4 != out.found.a4) {
        out.planned_strings = out.strung;
        out.planned_strings->standard.a4 = plan.a4;
    }
    const auto kept = std::make_shared<toml::table>(table);
    out.lay_plan_over = [kept, string_count, file = out.file](tl::instrument& built) {
        planned_part over;
        over.built = built;
        drop_other_anchor(*kept, over.built);
        std::vector<mistake> said_before;
        file_notes noted_before;
        table_reader::read(*kept, "planned", over, said_before, noted_before);
        built = over.built;
        single_strings(built, "planned.", string_count, file);
    };
    out.planned = std::move(plan);
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
    // What is planned is read over what was found, so it comes second.
    std::optional<toml::table> planned;
    if (toml::node* node = table.get("planned")) {
        if (node->is_table()) {
            planned = std::move(*node->as_table()); // a copy would not know its lines
        } else {
            out.mistakes.push_back({line_of(*node), "planned is " + as_written(*node) + "; expected a section"});
        }
        table.erase("planned");
    }
    out.wants = table.contains("wanted");
    table_reader::read(table, "", out.found, out.mistakes, out.file);
    single_strings(out.found.instrument, "", out.found.strings.size(), out.file);
    out.strung = string_up(out.found.strings, "strings", out.found.a4, out);
    check_order(out.found.instrument, out.found.strings, out.strung, "strings", out);
    const bool all_strings = out.strung.strings.size() == out.found.strings.size();
    add_problems(all_strings ? tl::validate(out.found.instrument, out.strung) : tl::validate(out.found.instrument), "",
                 out);
    add_problems(tl::validate(out.found.details), "details", out);
    add_problems(tl::validate(out.found.wanted), "wanted", out);
    check_correlated(out);
    if (planned) {
        const std::vector<mistake> of_found = std::exchange(out.mistakes, {});
        read_plan(*planned, out);
        add_problems(tl::validate(out.planned->work()), "planned", out);
        add_problems(tl::validate(*out.planned), "planned", out);
        if (out.mistakes.empty()) { check_held(*out.planned, out); }
        drop_repeated(out.mistakes, of_found);
        out.mistakes.insert(out.mistakes.begin(), of_found.begin(), of_found.end());
    }
    name_strings(out);
    std::stable_sort(out.mistakes.begin(), out.mistakes.end(),
                     [](const mistake& a, const mistake& b) { return a.line < b.line; });
    return out;
}

} // namespace bench_sheet
