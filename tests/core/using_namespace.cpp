// `using namespace tautline` beside that of std, with the C headers and the names a small program gives its variables.

#include <algorithm>
#include <any>
#include <cmath>
#include <ctime>
#include <functional>
#include <numeric>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <tautline/tautline.hpp>

using namespace std;
using namespace tautline;
using namespace tautline::units;

TEST_CASE("both namespaces in sight: std's functions, the library's, and one's own names") {
    const double nut = 1, frets = 2, tailpiece = 3, saddle = 4, any_number = 5;
    vector<double> heights{3, 1, 2};
    sort(heights.begin(), heights.end(), less<double>());
    sort(heights.begin(), heights.end(), less<>());
    CHECK(min(nut, frets) == 1);
    CHECK(max(tailpiece, saddle) == 4);
    CHECK(min(1, 2) == 1);
    CHECK(min(1.0F, 2.0F) == 1.0F);
    CHECK(min(2 * mm, 3 * mm) == 2 * mm);
    CHECK(max(1 * N, 2 * N) == 2 * N);
    CHECK(abs(-2.0) == 2);
    CHECK(abs(-2 * mm) == 2 * mm);
    CHECK(sqrt(4.0) == 2);
    CHECK(hypot(3.0, 4.0) == 5);
    CHECK(hypot(3 * mm, 4 * mm) / mm == doctest::Approx(5));
    CHECK(pow(2.0, 3.0) == 8);
    CHECK(exp2(3.0) == 8);
    CHECK(log2(8.0) == 3);
    CHECK(sin(0.0) + sin(0 * deg) + tan(0.0) + atan2(0.0, 1.0) + log(1.0) == 0);
    CHECK(any_cast<int>(any(3)) == 3);
    CHECK(any_of(heights.begin(), heights.end(), [](double x) { return x > 2; }));
    CHECK(all_of(heights.begin(), heights.end(), [&](double x) { return x < any_number; }));
    CHECK(count(heights.begin(), heights.end(), 1.0) == 1);
    CHECK(accumulate(heights.begin(), heights.end(), 0.0) == 6);
    CHECK(time(nullptr) > 0);
    CHECK(60 * N / mm == 60 * N_per_mm);
    {
        using namespace units::letters;
        CHECK(0.64 * m == 640 * mm);
        CHECK(1 / (2 * s) == 0.5 * Hz);
    }
    const double time = 2, min = 1; // one's own names hide them
    CHECK(time > min);
}
