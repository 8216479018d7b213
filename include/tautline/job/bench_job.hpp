#pragma once
/// @file
/// A whole job: an instrument and its strings as found, what is planned, what is wanted, and how sure the measurements
/// are.

#include <algorithm>

#include "../board/markers.hpp"
#include "../core/when_used.hpp"
#include "../doubt/stated_doubts.hpp"
#include "../instrument/ordered_string.hpp"
#include "../setup/under_strings.hpp"
#include "../work/bench_work.hpp"
#include "noted_centre.hpp"
#include "noted_reading.hpp"
#include "noted_season.hpp"
#include "overlay.hpp"
#include "wire_cut.hpp"
#include "wishes.hpp"

namespace tautline {

/// What is planned: work on board and frets, new strings, and everything else that will be different.
template <class R = double>
struct basic_job_plan {
    using real = R;
    std::string title{};                                               ///< heading of the planned side
    field<frequency<R>> a4 = frequency<R>::from_value(number<R>(440)); ///< pitch of A4 after the job
    std::optional<basic_sanding<R>> sanding{};                         ///< a new line and arc for the board
    std::optional<basic_fret_wire<R>> wire{};                          ///< new frets
    std::optional<basic_fret_levelling<R>> levelling{};                ///< levelling of the frets that are there
    std::optional<basic_wire_cut<R>> pieces{};                         ///< how new wire is cut and bent; absent: not told
    std::optional<basic_marker_layout<R>> dots{};                      ///< on face and side of the board; absent: none
                                                                       ///< are laid out
    std::vector<basic_ordered_string<R>> strings{};                    ///< new strings, bass first; empty: those that
                                                                       ///< were found
    /// Places of the new strings, where the others of the set stay on; empty: the whole set is new.
    std::vector<std::size_t> new_strings{};
    std::optional<std::vector<basic_named_object<R>>> objects{}; ///< absent: the objects that were found stay on the body
    /// Planned values of neck, nut, saddle and the like; of the frets the crown of a zero fret.
    basic_overlay<R> changes;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("title", self.title...);
        visit("a4", between(200 * units::Hz, 900 * units::Hz).fair_default("as found"), self.a4...);
        visit("sanding", self.sanding...);
        visit("wire", self.wire...);
        visit("levelling", self.levelling...);
        visit("pieces", self.pieces...);
        visit("dots", self.dots...);
        visit("strings", self.strings...);
        visit("objects", self.objects...);
        visit("frets", self.changes.values.frets...);
        visit("neck", self.changes.values.neck...);
        visit("nut", self.changes.values.nut...);
        visit("headstock", self.changes.values.headstock...);
        visit("posts", self.changes.values.posts...);
        visit("short_strings", self.changes.values.short_strings...);
        visit("saddle", self.changes.values.saddle...);
        visit("tailpiece", self.changes.values.tailpiece...);
        visit("pins", self.changes.values.pins...);
        visit("tie_block", self.changes.values.tie_block...);
        visit("body_bridge", self.changes.values.body_bridge...);
        visit("pressing_bar", self.changes.values.pressing_bar...);
        visit("feet", self.changes.values.feet...);
        visit("soundboard", self.changes.values.soundboard...);
        visit("playing", self.changes.values.playing...);
    }
    /// Whether the string at a place is a new one.
    [[nodiscard]] bool renews(std::size_t place) const {
        return place < strings.size() &&
               (new_strings.empty() || std::find(new_strings.begin(), new_strings.end(), place) != new_strings.end());
    }
    /// What is done to board and frets, without the strings.
    [[nodiscard]] basic_bench_work<R> work() const {
        return {.sanding = sanding, .wire = wire, .levelling = levelling, .strings = std::nullopt};
    }
    template <class Report>
    void rules(Report&& report) const {
        work().rules(report);
        for (const std::string& path : changes.paths) {
            if (is_at_or_below(path, "frets") && path != "frets.zero_crown") {
                report(path, "must be left out: planned.wire and planned.levelling say what becomes of the frets");
            }
        }
        if (pieces && !wire) { report("pieces", "must come with planned.wire: it says how new frets are cut"); }
        if (sanding && !wire && !changes.values.frets.wire.tang_depth) {
            report("sanding", "must come with planned.wire, or frets.wire.tang_depth must be given: the slots are to take "
                              "the tang of the frets");
        }
    }
};
using job_plan = basic_job_plan<double>;

/// A job. Its paths are those of its description, such as "saddle.height_bass", "strings[0].gauge" and
/// "planned.wire.crown_height".
template <class R = double>
struct basic_bench_job {
    using real = R;
    std::string title{};                                               ///< heading of the sheet
    field<frequency<R>> a4 = frequency<R>::from_value(number<R>(440)); ///< pitch of A4
    bool left_handed = false;                                          ///< whether the instrument is left-handed;
                                                                       ///< drawings show it so
    basic_instrument<R> instrument;                                    ///< as found
    basic_board_details<R> details{};                                  ///< what work on the board must know of it
    std::vector<basic_ordered_string<R>> strings{};                    ///< as found, bass first
    std::optional<basic_wishes<R>> wanted{};                           ///< absent: nothing is wanted
    std::vector<basic_named_object<R>> objects{};                      ///< what lies under the strings
    std::optional<basic_noted_centre<R>> centre{};          ///< the board's edges, to carry its middle to the tail
    std::vector<basic_correlated_readings<R>> correlated{}; ///< measurements that err together
    std::vector<basic_reading_gauge<R>> gauges{};           ///< tools that readings are taken with
    std::vector<basic_noted_state<R>> states{};             ///< states that readings are taken in
    std::vector<noted_reading> readings{};                  ///< readings of what the instrument does
    tautline::adjusting adjusting{};                        ///< how readings are used
    std::optional<basic_noted_season<R>> season{};          ///< the airs of its year; absent: not asked about
    std::optional<basic_job_plan<R>> planned{};             ///< absent: nothing is planned
    std::vector<stated_doubt> doubts{};                     ///< doubts of measurements, by path

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("title", self.title...);
        visit("a4", between(200 * units::Hz, 900 * units::Hz).fair_default("ISO 16"), self.a4...);
        visit("left_handed", self.left_handed...);
        visit("", self.instrument...);
        visit("details", self.details...);
        visit("strings", self.strings...);
        visit("wanted", self.wanted...);
        visit("objects", self.objects...);
        visit("centre_line", self.centre...);
        visit("correlated", self.correlated...);
        visit("gauges", self.gauges...);
        visit("states", self.states...);
        visit("readings", self.readings...);
        visit("adjusting", self.adjusting...);
        visit("season", self.season...);
        visit("planned", self.planned...);
    }
    template <class Report>
    void rules(Report&& report) const;

    /// Whether something is to change.
    [[nodiscard]] bool changes_something() const { return planned || wanted; }
    /// What is wanted; nothing where nothing is said of it.
    [[nodiscard]] basic_wishes<R> wishes_or_none() const { return wanted ? *wanted : basic_wishes<R>{}; }
    /// The strings at the end of the job: those that are planned, or those that were found.
    [[nodiscard]] const std::vector<basic_ordered_string<R>>& last_strings() const {
        return planned && !planned->strings.empty() ? planned->strings : strings;
    }
    /// The pitch of A4 at the end of the job.
    [[nodiscard]] frequency<R> last_a4() const { return planned ? planned->a4 : a4; }
};
using bench_job = basic_bench_job<double>;

/// Whether some state of a job was read in another air than everything else.
template <class R>
[[nodiscard]] bool reads_in_other_air(const basic_bench_job<R>& j) {
    for (const auto& s : j.states) {
        if (s.air) { return true; }
    }
    return false;
}
TAUTLINE_HELD(std::vector<problem> validate<bench_job>(const bench_job&, std::string_view))
TAUTLINE_HELD(bool is_valid<bench_job>(const bench_job&))

/// The path of a planned thing as that of the same thing as found: "planned.saddle.radius" as "saddle.radius". Any other
/// path stays as it is.
[[nodiscard]] constexpr std::string_view as_found(std::string_view path) {
    constexpr std::string_view planned = "planned.";
    return path.starts_with(planned) ? path.substr(planned.size()) : path;
}
/// Whether a path is one of what is planned.
[[nodiscard]] constexpr bool is_planned(std::string_view path) { return as_found(path) != path; }

/// A plan that begins as found, so that what it does not change fits what it does.
template <class R>
[[nodiscard]] basic_job_plan<R> plan_as_found(const basic_bench_job<R>& found) {
    basic_job_plan<R> plan;
    plan.title = found.title;
    plan.a4 = found.a4;
    plan.changes.values = found.instrument;
    return plan;
}

/// Plans one new string for a place of the set; the others stay on. Where it has no note, it takes the note of the string
/// that it replaces.
/// @throws invalid_input where nothing is planned, where there is no such string, and where the whole set is new already
template <class R>
void replace_string(basic_bench_job<R>& j, std::size_t place, basic_ordered_string<R> by) {
    require_that(j.planned.has_value(), "planned", "must be there before a string is planned");
    require_that(place < j.strings.size(), "place",
                 messages::joined({"must be below ", j.strings.size(), ", the number of strings"}));
    auto& plan = *j.planned;
    require_that(plan.strings.empty() || !plan.new_strings.empty(), "planned.strings",
                 "must not be a whole new set already: change its string there");
    if (plan.strings.empty()) { plan.strings = j.strings; }
    if (by.note.empty()) { by.note = j.strings[place].note; }
    plan.strings[place] = std::move(by);
    if (!plan.renews(place) || plan.new_strings.empty()) { plan.new_strings.push_back(place); }
}

/// The instrument of a job as found, with its strings.
/// @throws invalid_input with all that is wrong with the strings
template <class R>
[[nodiscard]] basic_strung_instrument<R> strung_as_found(const basic_bench_job<R>& j) {
    return {j.instrument, string_up(j.strings, j.a4)};
}

namespace kernel {

/// Checks a hollow against a wanted relief. Work on a neck that is held as it will be leaves its hollow at pitch,
/// whatever else is set. So a relief that is wanted too must be the same, to a micrometre.
template <class Part, class R, class Report>
void report_held(const char* path, const Part& part, const std::optional<field<length<R>>>& relief, Report&& report) {
    if (!part || part->held != neck_held::as_it_will_be || !relief) { return; }
    if (in_all_lanes(abs(relief->value() - part->hollow.value()) < number<R>(1e-6L))) { return; }
    const auto text = [](const auto& q) {
        return quantity_text<unit::length>(static_cast<long double>(value_of(q.value())));
    };
    report(path,
           messages::joined({"must be otherwise: at pitch the relief is then the hollow, ", text(part->hollow),
                             ", but wanted.relief is ", text(*relief), "; make both the same, or hold the neck otherwise"}),
           "\"as it will be\"");
}

/// What a bridge holds the strings by lies behind every string's saddle as found. (A plan may want a saddle further back
/// than that: it is told how far.)
template <class R, class Report>
void report_ends_behind(const basic_instrument<R>& i, Report&& report) {
    const length<R> most = most_setback(i.saddle);
    const auto look = [&](const char* path, const auto& end) {
        if (end && !in_all_lanes(is_less<unit::length, R>(most, end->distance))) {
            report(path, "must be more than every saddle's setback: the strings go down behind the saddle");
        }
    };
    look("pins.distance", i.pins);
    look("tie_block.distance", i.tie_block);
    look("body_bridge.distance", i.body_bridge);
}

} // namespace kernel

template <class R>
template <class Report>
void basic_bench_job<R>::rules(Report&& report) const {
    kernel::report_string_count(instrument, strings.size(), report);
    kernel::report_ends_behind(instrument, report);
    report_order(courses_of(instrument), strings, "strings", report);
    const string_names names = names_of(courses_of(instrument), strings);
    for (std::size_t i = 0; i < readings.size(); ++i) {
        (void)read_note(readings[i], names, objects,
                        [&](std::string_view key, const std::string& said, std::string_view v) {
                            report(messages::path_of("readings", i, key), said, v);
                        });
    }
    for (std::size_t i = 0; i < states.size(); ++i) {
        if (states[i].air && !season) {
            report(
                messages::path_of("states", i, "air"),
                "must be left out, or season.measured_in, season.dry and season.damp given: they tell the air of all else");
        }
    }
    if (!planned) { return; }
    if (planned->dots && instrument.board.scale.fan) {
        report("planned.dots", "must be left out on fanned frets, whose spaces have no one middle: lay each dot out on the "
                               "board, midway between its two frets where it is to stand");
    }
    if (planned->dots && !instrument.board.scale.fan) {
        planned->dots->report_frets(instrument.board.scale.frets, [&](const std::string& path, const char* off_board) {
            report(messages::joined({"planned.dots.", path}), off_board);
        });
    }
    for (const std::size_t place : planned->new_strings) {
        if (place >= planned->strings.size()) { report("planned.strings", "must hold each string that is new"); }
    }
    report_order(courses_of(planned->changes.values), planned->strings, "planned.strings", report);
    if (wanted) {
        kernel::report_held<decltype(planned->sanding), R>("planned.sanding.held", planned->sanding, wanted->relief,
                                                           report);
        kernel::report_held<decltype(planned->levelling), R>("planned.levelling.held", planned->levelling, wanted->relief,
                                                             report);
    }
}

} // namespace tautline
