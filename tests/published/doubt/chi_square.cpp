// How likely scatter is by chance, against printed tables, and the limits of the test for one bad reading.

#include <tautline/doubt/reading_tests.hpp>

#include "published/record.hpp"

using namespace tautline;

TEST_CASE("chi-square tables: 0.001 is exceeded from 10.83, 20.52, 24.32, 29.59 on, with 1, 5, 7, 10 degrees of freedom" *
          published::from_memory) {
    const auto exceeded_from = [](std::size_t degrees) {
        double low = 0, high = 100;
        for (int i = 0; i < 100; ++i) {
            const double middle = (low + high) / 2;
            (chi_square_tail(middle, degrees) > 0.001 ? low : high) = middle;
        }
        return low;
    };
    CHECK(published::within("chi-square at 0.001, 1 degree", exceeded_from(1), 10.83, 5e-3));
    CHECK(published::within("chi-square at 0.001, 5 degrees", exceeded_from(5), 20.52, 5e-3));
    CHECK(published::within("chi-square at 0.001, 7 degrees", exceeded_from(7), 24.32, 5e-3));
    CHECK(published::within("chi-square at 0.001, 10 degrees", exceeded_from(10), 29.59, 5e-3));
}

TEST_CASE("Baarda's limits for 0.1 % and 80 % (a surveying manual, quoted): 3.29, and a shift of 4.13 squared is 17.07" *
          published::quoted) {
    CHECK(published::within("limit of |w|", naming_limit, 3.29, 5e-3));
    CHECK(published::within("square of the shift", detectable_shift * detectable_shift, 17.07, 5e-3));
}
TEST_CASE("the same limits by the normal curve" * published::own_computation) {
    CHECK(published::within("chance of a false alarm", std::erfc(naming_limit / std::sqrt(2.0)), 0.001, 1e-11));
    CHECK(published::within("chance to name it", 1 - std::erfc((detectable_shift - naming_limit) / std::sqrt(2.0)) / 2, 0.8,
                            1e-9));
}
