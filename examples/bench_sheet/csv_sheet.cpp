#include "csv_sheet.hpp"

#include <map>

#include "csv_units.hpp"

namespace bench_sheet {

std::string csv_field(std::string_view raw) {
    const std::string text = shown(raw);
    std::string out;
    const bool quoted = text.find_first_of(",\"") != std::string::npos;
    if (!text.empty() && std::string_view("=+-@").find(text.front()) != std::string_view::npos) { out += '\''; }
    for (const char c : text) {
        if (c == '"') { out += '"'; }
        out += c;
    }
    return quoted ? '"' + out + '"' : out;
}

std::string csv_sheet(const whole_job& w) {
    std::string out = "path,result,unit,found,found give or take,planned,planned give or take\r\n";
    struct row {
        std::string_view kind;
        std::optional<double> found, planned;
    };
    std::vector<std::pair<std::string, row>> rows;
    std::map<std::string, std::size_t, std::less<>> place;
    const auto gather = [&](const tl::setup& s, std::optional<double> row::*column) {
        tl::for_each_leaf(s, [&](std::string_view path, const auto& x) {
            auto at = place.find(path);
            if (at == place.end()) {
                at = place.emplace(path, rows.size()).first;
                rows.emplace_back(path, row{tl::kind_name_of(x), {}, {}});
            }
            rows[at->second].second.*column = tl::number_of(x);
        });
    };
    gather(w.a.setups.found, &row::found);
    if (w.a.setups.planned) { gather(w.a.setups.plan.solved, &row::planned); }
    const auto doubts = [](const tl::setup_doubts& d) {
        std::map<std::string, double, std::less<>> of;
        for (const auto& r : d.results) { of.emplace(r.path, tl::coverage_factor * r.standard(d.together).si()); }
        return of;
    };
    const auto found_doubts = doubts(w.a.found_doubts), planned_doubts = doubts(w.a.planned_doubts);
    const tl::string_names& names = w.a.setups.last().names;
    for (const auto& one : rows) {
        // Not a structured binding: clang 14 does not let a lambda see one.
        const std::string& path = one.first;
        const row& r = one.second;
        const csv_unit u = csv_unit_of(r.kind);
        out += csv_field(path) + "," + csv_field(tl::words_for(path, names)) + "," + std::string(u.name);
        const auto cell = [&](const std::optional<double>& v) {
            out += "," + (v ? csv_number(*v / u.size) : std::string());
        };
        const auto doubt_cell = [&](const std::optional<double>& v, const auto& of) {
            const auto it = of.find(path);
            out += "," + (v && it != of.end() ? csv_number(it->second / u.size) : std::string());
        };
        cell(r.found);
        doubt_cell(r.found, found_doubts);
        cell(r.planned);
        doubt_cell(r.planned, planned_doubts);
        out += "\r\n";
    }
    return out;
}

} // namespace bench_sheet
