#pragma once
/// @file
/// What is laid out at the bench, as JSON for programs.

#include <nlohmann/json.hpp>
#include <tautline/job/bench_layout.hpp>

namespace job_file {

/// Lengths in mm, angles in degrees; null for unknown values.
inline nlohmann::ordered_json layout_json(const tautline::bench_layout& layout) {
    using json = nlohmann::ordered_json;
    namespace tl = tautline;
    namespace u = tl::units;
    const auto mm = [](const std::optional<tl::length<>>& q) { return q ? json(*q / u::mm) : json(nullptr); };
    json out = json::object();
    for (const tl::carried_place& at : layout.centre) {
        out["centre_line"].push_back({{"what", at.what},
                                      {"from_nut_mm", mm(at.x)},
                                      {"across_mm", mm(at.y)},
                                      {"give_or_take_mm", mm(at.give_or_take)},
                                      {"found_off_mm", mm(at.off)},
                                      {"reading_explains_mm", mm(at.allowed_by_reading)}});
    }
    if (layout.wire) {
        out["wire"] = {{"to_buy_mm", mm(layout.wire->all)}, {"pieces", json::array()}};
        for (const tl::cut_piece& p : layout.wire->pieces) {
            out["wire"]["pieces"].push_back({{"fret", p.fret},
                                             {"length_mm", mm(p.crown)},
                                             {"tang_mm", mm(p.tang)},
                                             {"bend_radius_mm", mm(p.bend_radius)}});
        }
    }
    for (const tl::marker& d : layout.dots) {
        json across = json::array(), side = json::array();
        for (const auto& y : d.y) { across.push_back(mm(y)); }
        for (const auto& x : d.side_x) { side.push_back(mm(x)); }
        out["dots"].push_back(
            {{"fret", d.fret}, {"from_nut_mm", mm(d.x)}, {"across_mm", across}, {"side_from_nut_mm", side}});
    }
    for (const tl::brought_to_gap& o : layout.objects) {
        out["objects"].push_back({{"name", o.name},
                                  {"wished_gap_mm", mm(o.wished)},
                                  {"gap_mm", mm(o.is)},
                                  {"raise_mm", mm(o.raise)},
                                  {"raise_when_tilted_mm", mm(o.raise_when_tilted)},
                                  {"tilt_along_deg", o.along_change / u::deg},
                                  {"tilt_across_deg", o.across_change / u::deg}});
    }
    return out;
}

} // namespace job_file
