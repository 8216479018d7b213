#include "pictures.hpp"

#include <buzz_map.hpp>
#include <side_view.hpp>
#include <tautline/doubt/read_heights.hpp>
#include <template_parts.hpp>

namespace bench_sheet {

namespace {

constexpr double panel_width = 120; // mm

/// The tightest place of a state: "0.12 mm over fret 5, string 6 E2, pressed at fret 4".
std::string tightest_words(const drawing::subject& s, measures m) {
    const tl::least_clearance_result* least = nullptr;
    std::string where;
    for (std::size_t i = 0; i < s.setup.strings.size(); ++i) {
        const tl::string_setup& one = s.setup.strings[i];
        const auto pressed = tl::tightest(one);
        if (!pressed || (least && !(one.clearances[*pressed].gap < least->gap))) { continue; }
        least = &one.clearances[*pressed];
        where = ", string " + s.setup.names.label(i) +
                (*pressed == 0 ? ", open" : ", pressed at fret " + std::to_string(*pressed));
    }
    return least ? "Tightest: " + in_words(show::height, least->gap, m) + " over fret " +
                       std::to_string(least->fret_number()) + where + "."
                 : "";
}

/// The rounding of a planned number. A slot or a saddle is rounded up; a result is rounded by its doubt.
tl::bench_rounding told_of(const whole_job& w, const tl::job_state& s, const std::string& path) {
    const bool slot = path.starts_with("nut.slot_heights");
    if (slot || path.starts_with("saddle.")) {
        return {slot ? tl::worked_as::cut : tl::worked_as::height, tl::rounded_to::more, w.a.room.of(path), {}};
    }
    tl::asked_result asked{path, {}, {}};
    for (const tl::asked_result& r : tl::asked_results(w.job.wishes_or_none(), s.is)) {
        if (r.path == path) { asked = r; }
    }
    return tl::rounding_of(asked, s.doubts.give_or_take(path));
}

} // namespace

std::vector<drawing::subject> subjects_of(const whole_job& w, bool fine) {
    std::vector<drawing::subject> all;
    const auto told = w.job.wishes_or_none().action_fret;
    for (const tl::job_state& s : w.states) {
        all.push_back({s.on.instrument, s.on.stringing, s.is, {}, told, {}, w.job.left_handed, {}});
        if (s.name == "planned") { all.back().first = w.a.cuts; }
        if (!fine && s.name == "planned") {
            all.back().told = [&w, &s](const std::string& path) { return told_of(w, s, path); };
        }
    }
    all.front().read = tl::heights_read(w.a.readings.said);
    if (w.job.planned && w.job.planned->dots) { all.back().dots = *w.job.planned->dots; }
    return all;
}

std::vector<picture> pictures_of(const whole_job& w, measures m, bool fine) {
    const auto states = subjects_of(w, fine);
    const drawing::subject& found = states.front();
    const drawing::subject* const planned = states.size() > 1 ? &states.back() : nullptr;
    const drawing::measures units = drawn_in(m);
    std::vector<picture> all;
    for (const drawing::side_panel& p : drawing::side_panels(found, planned, units, panel_width)) {
        std::string told = "Seen from the side. " + p.heading + ".";
        for (std::size_t i = 1; i < p.numbers.size(); ++i) {
            told += " " + p.numbers[i].front();
            for (std::size_t k = 1; k < p.numbers[i].size(); ++k) {
                told += (k == 1 ? ": " : ", ") + p.numbers.front()[k] + " " + p.numbers[i][k];
            }
            told += ".";
        }
        all.push_back({p.heading, p.drawn, told, p.numbers});
    }
    const auto add_map = [&](const drawing::subject& s, const std::string& state, picture_kind kind) {
        if (s.setup.fret_x.empty()) { return; }
        for (const drawing::map_part& p : drawing::map_parts(s, state, units)) {
            all.push_back({"Least clearance: " + p.heading,
                           p.drawn,
                           "Least clearance ahead of the pressed fret, strings across, frets down. " + p.heading + ". " +
                               tightest_words(s, m),
                           {},
                           kind});
        }
    };
    add_map(states.back(), planned ? "Planned" : "As found", picture_kind::map);
    if (planned) { add_map(found, "As found", picture_kind::folded_map); }
    for (const drawing::true_size& t : drawing::slot_pictures(states.back())) {
        all.push_back({t.name + (planned ? ", planned" : ", as found"),
                       {{0, 0, t.width, t.height}, t.draw},
                       t.name + ": " + t.words + " Its numbers stand in the tables of the strings.",
                       {},
                       picture_kind::slots,
                       t.words});
    }
    return all;
}

} // namespace bench_sheet
