// The stiff string that intonation asks for, against a numerical solution of the beam under tension.

#include <tautline/action/sounding_string.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("stiff string as intonation takes it against Hermite finite elements solved by scipy "
          "(../strings/stiff_string_table.py): within a hundredth of a cent" *
          published::reference_program) {
    std::ifstream file(TAUTLINE_TEST_DATA "/../strings/stiff_string_table.csv");
    REQUIRE(file.good());
    std::string line;
    std::getline(file, line);
    REQUIRE(line == "ends,e,n,ratio");
    int rows = 0;
    while (std::getline(file, line)) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream row(line);
        CAPTURE(line);
        std::string how;
        double one = 0, other = 0, e = 0, solved = 0;
        int n = 0;
        row >> how;
        if (how == "edges") { continue; }
        if (how == "springs") { row >> one >> other; }
        if (how == "clamped") { one = other = 1; }
        if (how == "mixed") { one = 1; }
        row >> e >> n >> solved;
        REQUIRE(!row.fail());
        if (n != 1) { continue; }
        // A string of 1 m, 1 kg/m, 1 N; a limp one sounds 1/2 Hz.
        const auto f = kernel::lowest_partial<double>(1.0 / (1 * kg_per_m), 1 * metre, 1 * N, e * e * N_m2,
                                                      kernel::held_by(one, other));
        CHECK(published::within("lowest partial of a limp string's, cents", 1200 * std::log2(f / Hz / 0.5),
                                1200 * std::log2(solved), 0.01));
        ++rows;
    }
    CHECK(rows == 3 * 7 + 6 * 10);
}
