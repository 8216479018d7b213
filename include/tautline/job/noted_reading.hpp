#pragma once
/// @file
/// Readings as noted at the bench: what was read, when, on which string, over which fret, with which tool, and the value.

#include <string>

#include "../core/any_from_text.hpp"
#include "../doubt/reading.hpp"
#include "../instrument/ordered_string.hpp"
#include "../setup/noted_air.hpp"

namespace tautline {

/// What the rod does while something is read.
enum class noted_rod {
    by_steps, ///< not told: loose from the step that loosens it to the one that sets it, else as set
    as_set,   ///< it pulls as it is set
    loose,    ///< its nut is loosened until it bears nothing
};

/// A reading of what the instrument does.
struct noted_reading {
    std::string of{};              ///< what was read, a word of `notable_words`: "relief", "height"
    std::string value{};           ///< as read, such as "0.30 ± 0.05 mm"; without ± the usual doubt counts
    std::string when{pitch_state}; ///< "at pitch", "slack", or a state of the job
    std::string after{};           ///< id of the step of the job after which it was read; empty: as found
    string_number string{};        ///< which string, such as "6" or "4a"
    std::optional<int> fret{};     ///< fret that it is over or pressed at
    std::string over = "saddle";   ///< of a break: over "saddle" or "nut"
    std::string object{};          ///< of a gap: name of what lies under the string
    std::string gauge{};           ///< gauge it was read with, which errs alike in other readings; empty: none

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("of", any_text, self.of...);
        visit("value", any_text, self.value...);
        visit("when", self.when...);
        visit("after", self.after...);
        visit("string", self.string...);
        visit("fret", between(1, 240), self.fret...);
        visit("over", self.over...);
        visit("object", self.object...);
        visit("gauge", self.gauge...);
    }
};

/// A state that readings are taken in.
template <class R = double>
struct basic_noted_state {
    using real = R;
    std::string name{};                             ///< such as "a quarter turn" or "2 kg at the nut"
    bool slack = false;                             ///< whether the strings are off
    R rod_turns = number<R>(0);                     ///< turns of the rod's nut from where it is; positive tightens
    noted_rod rod = noted_rod::by_steps;            ///< whether the rod pulls; left out: as the steps have it
    std::optional<field<mass<R>>> weight{};         ///< hung on the slack neck, where it pulls the neck back
    int at_fret = 0;                                ///< fret where the weight hangs; 0 is the nut
    std::optional<int> capo{};                      ///< fret at which all strings are held down
    std::vector<basic_ordered_string<R>> strings{}; ///< another set, bass first; empty: the strings as found
    /// The air of another visit, after weeks in it; absent: the air of the other measurements.
    std::optional<basic_noted_air<R>> air{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", any_text, self.name...);
        visit("slack", self.slack...);
        visit("rod_turns", between(-20, 20).fair_default("the rod as it is"), self.rod_turns...);
        visit("rod", self.rod...);
        visit("weight", more_than_up_to(0 * units::kg, 100 * units::kg), self.weight...);
        visit("at_fret", between(0, 240).fair_default("at the nut"), self.at_fret...);
        visit("capo", between(1, 240), self.capo...);
        visit("strings", self.strings...);
        visit("air", self.air...);
    }
};
using noted_state = basic_noted_state<double>;

/// How an instrument is reconciled with its readings.
struct adjusting {
    bool as_read = false;                       ///< whether readings are only compared and adjust nothing
    bool usual_doubts = true;                   ///< whether a number without ± has the usual doubt of the bench
    bool huber = false;                         ///< whether readings that disagree count less
    std::optional<field<length<>>> sanded_to{}; ///< how true a board is sanded to its line, about 95 %; absent: as usual
    /// How true the joint of a neck that is reset is cut, at the cap of its heel, about 95 %; absent: as usual.
    std::optional<field<length<>>> reset_to{};
    std::optional<field<length<>>> cut_to{}; ///< how true a slot or a saddle is cut, about 95 %; absent: as usual
    std::vector<std::string> next_for{};     ///< results that the next readings are chosen for; empty: outer actions

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("as_read", self.as_read...);
        visit("usual_doubts", self.usual_doubts...);
        visit("huber", self.huber...);
        visit("sanded_to", between(0 * units::mm, 5 * units::mm), self.sanded_to...);
        visit("reset_to", between(0 * units::mm, 5 * units::mm), self.reset_to...);
        visit("cut_to", between(0 * units::mm, 5 * units::mm), self.cut_to...);
        visit("next_for", self.next_for...);
    }
    /// How true a board is sanded: as stated, or 0.05 mm (common practice), or exactly where no usual doubt counts.
    [[nodiscard]] length<> sands_to() const { return stated_or(sanded_to, 0.05 * units::mm); }
    /// How true the joint of a reset is cut: as stated, or 0.1 mm (common practice), or exactly where no usual doubt
    /// counts.
    [[nodiscard]] length<> resets_to() const { return stated_or(reset_to, 0.1 * units::mm); }
    /// How true a slot or a saddle is cut: as stated, or 0.03 mm (common practice), or exactly where no usual doubt counts.
    [[nodiscard]] length<> cuts_to() const { return stated_or(cut_to, 0.03 * units::mm); }

private:
    [[nodiscard]] length<> stated_or(const std::optional<field<length<>>>& stated, const length<>& usual) const {
        return stated ? length<>(*stated) : usual_doubts ? usual : length<>();
    }
};

/// What a noted reading may be of, listed for a message: "relief", "height", ...
[[nodiscard]] inline std::string notable_words() {
    std::string all;
    for (const auto& row : kernel::readables) {
        // Two rows share one word: a break is over the saddle or at the nut.
        if (all.find(row.noted) == std::string::npos) { messages::append(all, {all.empty() ? "\"" : "\", \"", row.noted}); }
    }
    return all + "\"";
}

namespace kernel {

/// The table's row for a noted reading; null where there is none.
[[nodiscard]] constexpr const readable_row* row_of(std::string_view of, std::string_view over) {
    for (const auto& row : readables) {
        if (of != row.noted) { continue; }
        const bool nut = row.what == readable::break_at_nut, saddle = row.what == readable::break_at_saddle;
        if ((nut && over != "nut") || (saddle && over == "nut")) { continue; }
        return &row;
    }
    return nullptr;
}

} // namespace kernel

/// A noted reading in the form that `reconcile` takes. Problems are reported by its keys. States, gauges and steps are
/// checked elsewhere.
/// @param names names of the strings
/// @param objects objects that lie under them
/// @param report called with key, rule and value
template <class Objects, class Report>
[[nodiscard]] std::optional<reading> read_note(const noted_reading& n, const string_names& names, const Objects& objects,
                                               Report&& report) {
    const auto* row = kernel::row_of(n.of, n.over);
    const auto quoted = [](std::string_view text) { return messages::joined({"\"", text, "\""}); };
    if (!row) {
        report("of", messages::joined({"must be one of: ", notable_words()}), quoted(n.of));
        return std::nullopt;
    }
    bool good = true;
    const auto refuse = [&](std::string_view key, const std::string& said, const std::string& value) {
        report(key, said, value);
        good = false;
    };
    const std::string_view pattern = row->path;
    const bool of_string = pattern.starts_with("strings[]"), of_fret = pattern.find("s[]", 9) != std::string_view::npos;
    std::size_t string = 0;
    if (of_string) {
        const auto i = names.place_of(n.string.text);
        if (!i) {
            refuse("string",
                   messages::joined({n.string.text.empty() ? "must be given for " : "must be one that is there for ",
                                     quoted(n.of), "; there are ", names.range()}),
                   n.string.text);
        }
        string = i.value_or(0);
    } else if (!n.string.text.empty()) {
        refuse("string", messages::joined({"must be left out for ", quoted(n.of)}), n.string.text);
    }
    if (of_fret && !n.fret) { refuse("fret", messages::joined({"must be given for ", quoted(n.of)}), ""); }
    if (!of_fret && n.fret) {
        refuse("fret", messages::joined({"must be left out for ", quoted(n.of)}), messages::joined({*n.fret}));
    }
    if (n.over != "saddle" && n.over != "nut") { refuse("over", "must be \"saddle\" or \"nut\"", quoted(n.over)); }
    reading r;
    if (row->what == readable::gap) {
        for (const auto& o : objects) {
            if (o.name == n.object) { r.object = o.shape; }
        }
        if (!r.object) { refuse("object", "must be the name of one of the job's objects", quoted(n.object)); }
    } else if (!n.object.empty()) {
        refuse("object", "must be left out but for a \"gap\"", quoted(n.object));
    }
    const auto value = parse_any_measured(row->kind, n.value);
    if (!value) {
        refuse("value", messages::joined({"must be ", typed_as(row->kind), about_fractions(n.value)}), quoted(n.value));
    } else if (value->give_or_take.has_value() && !(value->give_or_take.si() > 0)) {
        refuse("value", "must have a doubt of more than 0, or none: a reading without doubt is no reading",
               quoted(n.value));
    } else if (auto text = kernel::why_no_break(row->what, value->best); !text.empty()) {
        refuse("value", text, quoted(n.value));
    } else {
        r.value = value->best;
        if (value->give_or_take.has_value()) { r.standard = (1 / coverage_factor) * value->give_or_take; }
    }
    if (!good) { return std::nullopt; }
    std::size_t lists = 0;
    for (std::size_t k = 0; k < pattern.size(); ++k) {
        r.path += pattern[k];
        if (pattern[k] != '[') { continue; }
        messages::append(r.path, {lists == 0 ? string : static_cast<std::size_t>(*n.fret - 1)});
        ++lists;
    }
    r.state = n.when;
    r.gauge = n.gauge;
    return r;
}

} // namespace tautline
