// All of Tautline in two files of one program: both must mean the same by it.
#include <boost/version.hpp>
#include <cstdio>
#include <string>

#include "shop.hpp"

namespace {

std::string numbers_of(const tautline::setup& s) {
    std::string text;
    tautline::for_each_leaf(s, [&](std::string_view path, const auto& leaf) {
        text += std::string(path) + "=" + std::to_string(tautline::number_of(leaf)) + "\n";
    });
    return text;
}
bool caught_from_the_other_file() {
    try {
        solve_nonsense_in_the_other_file();
    } catch (const tautline::invalid_input& e) { return e.problems().size() == 1; }
    return false;
}

} // namespace

int main() {
    using namespace tautline::units;
    const auto here = tautline::solve(tautline::strung_instrument{small_guitar(), two_strings()});
    using D = tautline::dual<double, 1>; // derivatives, too, come from templates
    const auto moved = tautline::tension(tautline::over<D>(two_strings()).strings[1].string, D::variable(0.61, 0) * metre,
                                         tautline::pitch_of("E4"));

    const bool same = numbers_of(here) == numbers_of(solved_in_the_other_file());
    const bool one_version = where_the_other_file_sees_the_version() == &tautline::version_text;
    std::printf("pull %.2f N, relief %.3f mm, action %.2f mm, %.2f N more per mm of scale\n", here.total_tension / N,
                here.relief->gap / mm, here.strings[0].heights[11] / mm, moved.value().partial[0] / 1000);
    std::fprintf(stderr, "with Boost %d.%d\n", BOOST_VERSION / 100000, BOOST_VERSION / 100 % 1000);
    return same && one_version && caught_from_the_other_file() ? 0 : 1;
}
