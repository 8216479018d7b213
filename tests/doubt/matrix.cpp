#include <tautline/doubt/matrix.hpp>

#include "near.hpp"

using namespace tautline;

TEST_SUITE("matrix") {
    TEST_CASE("rows, columns, products by hand") {
        const matrix a(2, 3, {1, 2, 3, 4, 5, 6}), b(3, 2, {1, 0, 2, 1, 0, 3});
        const matrix c = a * b;
        CHECK(c.rows() == 2);
        CHECK(c.columns() == 2);
        CHECK(c(0, 0) == 5);
        CHECK(c(0, 1) == 11);
        CHECK(c(1, 0) == 14);
        CHECK(c(1, 1) == 23);
        CHECK(a.transposed()(2, 1) == 6);
        CHECK(a.column(1) == std::vector<double>{2, 5});
        CHECK(a * std::vector<double>{1, 1, 1} == std::vector<double>{6, 15});
        CHECK(kernel::times_transposed(a, b.transposed())(1, 1) == 23);
        CHECK(matrix::identity(2)(1, 1) == 1);
        CHECK(matrix::identity(2)(0, 1) == 0);
        CHECK(matrix::squares(std::vector<double>{2, 3})(1, 1) == 9);
        CHECK_THROWS_AS(matrix(1, 1, {1, 2}), invalid_input);
    }
}
