#pragma once
/// @file
/// A job file: an instrument and its strings in the trade's words. The sections of the instrument are the library's own
/// aggregates; strings are written as a repairer orders them.

#include <fstream>
#include <iterator>
#include <optional>
#include <sstream>

#include <tautline/setup/solve.hpp>

#include "toml_reader.hpp"
#include "wishes.hpp"

namespace bench_sheet {

template <>
struct words_of<tl::spacing_rule> {
    static constexpr choice_word<tl::spacing_rule> list[] = {{"equal centres", tl::spacing_rule::equal_centres},
                                                             {"equal gaps", tl::spacing_rule::equal_gaps}};
};

/// A string as it is ordered: plain by its gauge, wound by its gauge and its core.
struct ordered_string {
    std::string note{};
    tl::field<tl::length<>> gauge{};
    std::string material = "music wire";           ///< of a plain string, or of a wound one's core
    std::optional<tl::field<tl::length<>>> core{}; ///< diameter of a wound string's core
    std::string wrap{};                            ///< material of a wound string's wrap

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("note", self.note...);
        visit("gauge", tl::more_than_up_to(0 * tl::units::mm, 20 * tl::units::mm), self.gauge...);
        visit("material", self.material...);
        visit("core", tl::more_than_up_to(0 * tl::units::mm, 20 * tl::units::mm), self.core...);
        visit("wrap", self.wrap...);
    }
};

/// Everything a job file holds.
struct job {
    std::string title{};
    tl::field<tl::frequency<>> a4 = 440 * tl::units::Hz;
    tl::instrument instrument{};
    std::vector<ordered_string> strings{};
    std::optional<wanted_heights> wanted{};
    std::vector<named_object> objects{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("title", self.title...);
        visit("a4", tl::between(200 * tl::units::Hz, 900 * tl::units::Hz), self.a4...);
        tl::instrument::describe(visit, self.instrument...);
        visit("strings", self.strings...);
        visit("wanted", self.wanted...);
        visit("objects", self.objects...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (wanted && wanted->down_force && !instrument.tailpiece) {
            report("wanted.down_force", "must be left out where no tailpiece hangs");
        }
        if (wanted && wanted->saddle_break && !instrument.pins) {
            report("wanted.saddle_break", "must be left out where there are no pins");
        }
        if (wanted && !(wanted->hinge_lowest < wanted->hinge_highest)) {
            report("wanted.hinge_lowest", "must be less than hinge_highest");
        }
        if (wanted && wanted->action_fret > instrument.board.scale.frets) {
            report("wanted.action_fret",
                   "must be one of the board's " + std::to_string(instrument.board.scale.frets) + " frets");
        }
    }
};

/// What became of reading a job file: a job to work on, or what is wrong with the file.
struct read_job {
    job found{};
    tl::stringing strung{};
    std::vector<mistake> mistakes{};
    file_notes file{};
};

/// Largest job file that is read; a real one has some ten thousand characters.
inline constexpr std::size_t longest_job_file = 1 << 20;

/// The string that is ordered, or the mistakes in its order.
inline std::optional<tl::tuned_string> make_string(const ordered_string& order, const std::string& path,
                                                   const file_notes& file, std::vector<mistake>& found) {
    const auto line = [&](const std::string& key) {
        const auto it = file.lines.find(path + "." + key);
        return it != file.lines.end() ? it->second : file.lines.count(path) ? file.lines.at(path) : 0;
    };
    const auto material = [&](const std::string& key, const std::string& name) {
        const auto m = tl::find_wire_material(name);
        if (!m) {
            std::string known;
            for (const auto& k : tl::wire_materials()) { known += (known.empty() ? "" : ", ") + std::string(k.name); }
            found.push_back({line(key), path + "." + key + " is \"" + shown(name) + "\"; expected one of: " + known});
        }
        return m.value_or(tl::music_wire());
    };
    tl::tuned_string s;
    try {
        s.pitch = tl::parse_note(order.note);
    } catch (const tl::invalid_input& e) {
        const auto& p = e.problems().front();
        found.push_back({line("note"), path + ".note is \"" + shown(order.note) + "\"; it " + p.allowed});
    }
    const auto core_material = material("material", order.material);
    if (order.core.has_value() != !order.wrap.empty()) {
        found.push_back(
            {line(order.core ? "core" : "wrap"),
             path + ": a wound string needs both \"core\" (a diameter) and \"wrap\" (a material), a plain one neither"});
    }
    if (order.core && !(*order.core < order.gauge)) {
        found.push_back({line("core"), path + ".core must be less than the string's gauge"});
    }
    const auto wrap_material = order.wrap.empty() ? core_material : material("wrap", order.wrap);
    // A gauge that could not be read is among the mistakes already.
    if (!found.empty()) { return std::nullopt; }
    s.string = order.core ? tl::wound_string(core_material, *order.core, wrap_material, 0.5 * (order.gauge - *order.core))
                          : tl::plain_string(core_material, order.gauge);
    return s;
}

/// Reads a job from the text of a file. Nothing of it is usable while there are mistakes.
inline read_job parse_job(std::string_view text) {
    read_job out;
    toml::table table;
    if (text.size() > longest_job_file) {
        out.mistakes.push_back({0, "the file is longer than a job file may be (1 MiB)"});
        return out;
    }
    try {
        table = toml::parse(text);
    } catch (const toml::parse_error& e) {
        out.mistakes.push_back({e.source().begin.line, "this is not TOML: " + shown(e.description())});
        return out;
    }
    table_reader::read(table, "", out.found, out.mistakes, out.file);
    for (std::size_t i = 0; i < out.found.strings.size(); ++i) {
        if (auto s = make_string(out.found.strings[i], "strings[" + std::to_string(i) + "]", out.file, out.mistakes)) {
            out.strung.strings.push_back(*s);
        }
    }
    out.strung.standard.a4 = out.found.a4;
    if (out.mistakes.empty()) {
        // Rules between keys: the library's own, whose paths are the file's.
        auto problems = tl::validate(out.found.instrument, out.strung);
        out.found.rules([&](std::string_view field, std::string_view rule) {
            problems.push_back({std::string(field), "", std::string(rule)});
        });
        for (const tl::problem& p : problems) {
            std::string path = p.field;
            while (!path.empty() && !out.file.lines.count(path)) {
                path = path.substr(0, path.find_last_of(".[") == std::string::npos ? 0 : path.find_last_of(".["));
            }
            out.mistakes.push_back({out.file.lines.count(path) ? out.file.lines.at(path) : 0, shown(p.sentence())});
        }
    }
    std::stable_sort(out.mistakes.begin(), out.mistakes.end(),
                     [](const mistake& a, const mistake& b) { return a.line < b.line; });
    return out;
}

} // namespace bench_sheet
