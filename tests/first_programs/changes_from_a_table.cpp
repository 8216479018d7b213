// An embedding developer: changes by path from a table, one of them mistyped, and results by path.
// prints: sadle.height_bass must be the path of a number that is there, such as saddle.height_bass.
// prints: 0.196839 mm, in mm 0.197
#include <cstdio>
#include <map>
#include <string>
#include <tautline/core/by_path.hpp>
#include <tautline/core/to_text.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

namespace tl = tautline;

int main() {
    auto bass = tl::string_up(tl::ready_made::solid_body_bass());
    const std::map<std::string, std::string> changes{
        {"saddle.height_bass", "14 mm"}, {"sadle.height_bass", "13 mm"}, {"standard.a4", "432 Hz"}};
    for (const auto& [path, value] : changes) {
        try {
            tl::set(bass, path, value);
        } catch (const tl::invalid_input& wrong) { std::puts(wrong.what()); }
    }
    const auto setup = tl::solve(bass);
    std::printf("%s, in mm %.3f\n", tl::to_text(tl::get(setup, "relief.gap")).c_str(),
                tl::get(setup, "relief.gap").as<tl::length<>>() / tl::units::mm);
}
