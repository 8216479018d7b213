#include "doubts.hpp"

#include <cmath>

namespace bench_sheet {

namespace {

/// A doubt in one string's order: a wound string's wrap takes half of what the gauge has more than the core.
void move_string(tl::doubt& d, const std::string& place, const std::string& what, bool wound) {
    const std::string string = "strings" + place + ".string.";
    if (what == "core") {
        d.moves = {{string + "core.diameter", 1}, {string + "layers[0].thickness", -0.5}};
    } else {
        d.moves = {wound ? tl::moved_leaf{string + "layers[0].thickness", 0.5}
                         : tl::moved_leaf{string + "core.diameter", 1}};
    }
}

/// What a doubtful key of the file moves in the model.
tl::doubt moved_by(const std::string& key, double standard, const std::vector<ordered_string>& orders) {
    tl::doubt d{key, standard, {}};
    const std::string plan = "planned.";
    const std::string path = key.rfind(plan, 0) == 0 ? key.substr(plan.size()) : key;
    const std::size_t end = path.find(']');
    if (path == "a4") {
        d.moves = {{"standard.a4"}};
    } else if (path.rfind("strings[", 0) == 0 && end != std::string::npos) {
        const std::size_t i = std::stoul(path.substr(8));
        move_string(d, path.substr(7, end - 6), path.substr(end + 2), i < orders.size() && orders[i].core.has_value());
    } else if (path.rfind("wire.", 0) == 0) {
        d.moves = {{"frets." + path}};
    } else if (path.rfind("sanding.", 0) == 0) {
        d.moves = {{"board.surface." + path.substr(8)}};
    } else {
        d.moves = {{path}};
    }
    return d;
}

doubted doubt(const tl::strung_instrument& model, std::vector<tl::doubt> doubts, const read_job& job) {
    doubted all;
    // Doubts that move nothing of the model (of a slot's depth, of a worn fret that is replaced) make no result doubtful.
    std::vector<std::string> paths;
    tl::for_each_leaf(model, [&](std::string_view path, const auto&) { paths.emplace_back(path); });
    for (auto& d : doubts) {
        const bool there = std::all_of(d.moves.begin(), d.moves.end(), [&](const tl::moved_leaf& m) {
            return std::find(paths.begin(), paths.end(), m.path) != paths.end();
        });
        if (there) { all.doubts.push_back(std::move(d)); }
    }
    const auto place = [&](const std::string& key) {
        return std::find_if(all.doubts.begin(), all.doubts.end(), [&](const auto& d) { return d.name == key; }) -
               all.doubts.begin();
    };
    const auto count = static_cast<std::ptrdiff_t>(all.doubts.size());
    for (const auto& c : job.found.correlated) {
        const auto a = place(c.first), b = place(c.second);
        if (a < count && b < count) {
            all.together.push_back({static_cast<std::size_t>(a), static_cast<std::size_t>(b), c.coefficient});
        }
    }
    if (!all.doubts.empty()) { all.results = tl::propagate(model, all.doubts); }
    return all;
}

} // namespace

std::optional<double> doubted::give_or_take(std::string_view path) const {
    const auto* r = tl::find_result(results, path);
    if (!r) { return std::nullopt; }
    return tl::coverage_factor * r->standard(together);
}

std::vector<tl::budget_line<tl::length<>>> doubted::budget(std::string_view path) const {
    const auto* r = tl::find_result(results, path);
    if (!r) { return {}; }
    std::vector<std::string> names;
    std::vector<tl::length<>> parts;
    for (std::size_t k = 0; k < doubts.size(); ++k) {
        names.push_back(doubts[k].name);
        parts.push_back(tl::length<>::from_value(r->contributions[k]));
    }
    return tl::budget<tl::unit::length>(names, parts);
}

doubted doubt_found(const read_job& job) {
    std::vector<tl::doubt> doubts;
    for (const auto& [key, standard] : job.file.doubts) {
        if (key.rfind("planned.", 0) != 0) { doubts.push_back(moved_by(key, standard, job.found.strings)); }
    }
    return doubt({job.found.instrument, job.strung}, std::move(doubts), job);
}

doubted doubt_planned(const read_job& job, const answers& a) {
    const bool own_strings = job.planned && !job.planned->strings.empty();
    const auto& orders = own_strings ? job.planned->strings : job.found.strings;
    const auto planned_anew = [&](const std::string& key) {
        // New strings, frets and surface are none of those that were measured.
        return job.file.lines.count("planned." + key) > 0 || (own_strings && key.rfind("strings[", 0) == 0) ||
               (job.planned && job.planned->wire && key.rfind("frets.", 0) == 0) ||
               (a.work.removal && (key.rfind("board.surface", 0) == 0 || key.rfind("neck.set", 0) == 0));
    };
    std::vector<tl::doubt> doubts;
    for (const auto& [key, standard] : job.file.doubts) {
        if (key.rfind("planned.", 0) == 0 || !planned_anew(key)) { doubts.push_back(moved_by(key, standard, orders)); }
    }
    return doubt(a.plan.set, std::move(doubts), job);
}

} // namespace bench_sheet
