#pragma once
/// @file
/// How sure the sheet's numbers are: each measurement of the job file that says "give or take" is carried through the
/// solve.

#include <tautline/setup/tolerance.hpp>

#include "job.hpp"
#include "measures.hpp"
#include "text_table.hpp"

namespace bench_sheet {

/// The doubts of a job file as the library takes them; names are the file's keys.
inline std::vector<tl::doubt> doubts_of(const read_job& j) {
    std::vector<tl::doubt> list;
    for (const auto& [key, standard] : j.file.doubts) {
        tl::doubt d{key, standard, {}};
        const std::size_t end = key.find(']');
        if (key == "a4") {
            d.moves = {{"standard.a4"}};
        } else if (key.rfind("strings[", 0) == 0 && end != std::string::npos) {
            const std::string string = key.substr(0, end + 1) + ".string.", what = key.substr(end + 2);
            const bool wound = j.found.strings[std::stoul(key.substr(8))].core.has_value();
            // A wound string's wrap takes half of what the gauge has more than the core.
            if (what == "core") {
                d.moves = {{string + "core.diameter", 1}, {string + "layers[0].thickness", -0.5}};
            } else {
                d.moves = {wound ? tl::moved_leaf{string + "layers[0].thickness", 0.5}
                                 : tl::moved_leaf{string + "core.diameter", 1}};
            }
        } else {
            d.moves = {{key}};
        }
        list.push_back(std::move(d));
    }
    return list;
}

/// A result that the sheet says the doubt of: its path, its name on the sheet.
struct asked_result {
    std::string path;
    std::string name;
};

inline std::vector<asked_result> asked_results(const tl::setup& s) {
    std::vector<asked_result> list{
        {"total_tension", "total pull"}, {"relief.gap", "relief"}, {"down_force", "down-force on the saddle"}};
    for (const std::size_t n : {std::size_t{1}, std::size_t{12}}) {
        for (const std::size_t i : {std::size_t{0}, s.strings.size() - 1}) {
            if (n > s.fret_x.size()) { continue; }
            list.push_back({"strings[" + std::to_string(i) + "].heights[" + std::to_string(n - 1) + "]",
                            "action at fret " + std::to_string(n) + ", string " + std::to_string(i + 1)});
        }
    }
    return list;
}

/// The section of the sheet; empty where no measurement says how sure it is.
inline std::string doubt_section(const read_job& j, const tl::setup& s, measures m) {
    const auto doubts = doubts_of(j);
    if (doubts.empty()) { return ""; }
    const auto results = tl::propagate({j.found.instrument, j.strung}, doubts);
    text_table table({"result", "value", "give or take", "", "most of it from", "share"});
    for (const asked_result& asked : asked_results(s)) {
        const tl::uncertain_result* r = tl::find_result(results, asked.path);
        if (!r) { continue; }
        const double standard = r->standard();
        std::size_t most = 0;
        for (std::size_t k = 1; k < doubts.size(); ++k) {
            if (std::abs(r->contributions[k]) > std::abs(r->contributions[most])) { most = k; }
        }
        const double share = standard > 0 ? r->contributions[most] * r->contributions[most] / (standard * standard) : 0;
        const auto row = [&](const auto& kind, auto quantity) {
            using Q = decltype(quantity);
            kind.each(m, [&](const auto& unit) {
                table.row({asked.name, tl::fixed_text(Q::from_value(r->value), unit.tag, unit.decimals),
                           tl::fixed_text(Q::from_value(tl::coverage_factor * standard), unit.tag, unit.decimals),
                           std::string(unit.name), doubts[most].name, std::to_string(std::lround(100 * share)) + " %"});
            });
        };
        if (r->kind == std::string_view("force")) { row(show::pull, tl::force<>()); }
        if (r->kind == std::string_view("length")) { row(show::height, tl::length<>()); }
    }
    return "How sure (about 95 %, from the measurements that say how sure they are)\n" + table.text() +
           "  Measure better what makes most of the doubt. Wood, friction and end conditions count only where the file "
           "doubts them.\n";
}

} // namespace bench_sheet
