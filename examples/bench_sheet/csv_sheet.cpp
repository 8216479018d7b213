#include "csv_sheet.hpp"

#include <tautline/job/all_results.hpp>

namespace bench_sheet {

std::string csv_sheet(const whole_job& w) {
    std::vector<std::vector<std::string>> rows{
        {"path", "result", "unit", "found", "found give or take", "planned", "planned give or take"}};
    for (const tl::job_result& r : tl::all_results(w.a)) {
        const tl::shown_unit unit = tl::column_unit_of(r.kind);
        rows.push_back({csv_field(r.path), csv_field(r.words), std::string(unit.name)});
        for (const auto& q : {r.found, r.found_give_or_take, r.planned, r.planned_give_or_take}) {
            rows.back().push_back(csv_cell(q, unit));
        }
    }
    return csv_text(rows);
}

} // namespace bench_sheet
