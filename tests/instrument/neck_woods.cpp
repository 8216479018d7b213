// What the names of a neck's woods bring, and how a modulus that was measured reaches the beam.

#include <tautline/instrument/neck_woods.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

neck_measures named_neck() {
    auto n = demo::four_course().neck;
    n.board_wood = "wenge";
    n.back_wood = "sapele";
    n.board_modulus = needed<stress<>>();
    n.back_modulus = needed<stress<>>();
    return n;
}
double rise_with(const instrument& i) { return solve(strung_instrument{i, demo::unison_pairs()}).nut_rise / mm; }

} // namespace

TEST_SUITE("woods of a neck") {
    TEST_CASE("a modulus that is not given comes from the wood's name, one that is given stays") {
        auto n = named_neck();
        CHECK_FALSE(validate(n).empty());
        take_moduli(n);
        CHECK(validate(n).empty());
        CHECK(n.board_modulus == 17 * GPa);
        CHECK(n.back_modulus == 11.7 * GPa);
        n.back_wood = "wenge";
        take_moduli(n);
        CHECK(n.back_modulus == 11.7 * GPa);
        // No wood, no modulus: the range's own sentence tells it.
        auto bare = named_neck();
        bare.board_wood.clear();
        take_moduli(bare);
        REQUIRE(validate(bare).size() == 1);
        CHECK(validate(bare)[0].field == "board_modulus");
    }
    TEST_CASE("names that bring nothing are told together") {
        auto n = named_neck();
        n.board_wood = "ebny";
        n.back_wood = "plum";
        CHECK_THROWS_WITH(take_moduli(n), doctest::Contains("board_wood is \"ebny\"; it must be a wood of the table"));
        CHECK_THROWS_WITH(take_moduli(n), doctest::Contains("back_wood is \"plum\"; it must come with a modulus"));
        // A wood of one's own: any name, its own modulus.
        n.board_modulus = 20 * GPa;
        n.back_modulus = 8 * GPa;
        CHECK_NOTHROW(take_moduli(n));
        CHECK(validate(n).empty());
    }
    TEST_CASE("how sure: by the name, by the way it was measured, else not told") {
        auto n = named_neck();
        take_moduli(n);
        const auto of = [&](std::size_t i) { return woods_of(n)[i]; };
        CHECK(of(0).part == "board");
        CHECK(of(0).standard().value() == 4 * GPa);
        CHECK(of(1).standard().value() == 2.3 * GPa);
        n.board_modulus = 16 * GPa; // measured, and nobody says how
        CHECK_FALSE(of(0).from_name());
        CHECK_FALSE(of(0).standard());
        n.board_method = modulus_method::tap_tone;
        CHECK(near::relative(of(0).standard().value(), 1.6 * GPa, 1e-12));
        n.board_method = modulus_method::three_point;
        CHECK(near::relative(of(0).standard().value(), 1.12 * GPa, 1e-12));
        // The table's own figure, measured all the same.
        n.board_modulus = 17 * GPa;
        CHECK_FALSE(of(0).from_name());
        n.board_wood.clear();
        n.board_method = modulus_method::not_told;
        CHECK_FALSE(of(0).standard());
    }
    TEST_CASE("pure bending takes of each modulus what its method leaves to be taken") {
        auto i = demo::four_course();
        neck n;
        neck_of(i, n);
        CHECK(n.pure_bending_factor == 1.10);
        const double today = rise_with(i);
        // A factor on both woods is one on the whole section: the elastic bow falls with it, but for the second order.
        i.neck.pure_bending_factor = 1.5 * 1.10;
        const double stiffer = rise_with(i);
        CHECK(stiffer < today / 1.5);
        CHECK(stiffer > 0.6 * today);
        // The same moduli times the factor, told as dynamic, are the same neck, whatever its factor is.
        i.neck.board_modulus = 1.10 * i.neck.board_modulus;
        i.neck.back_modulus = 1.10 * i.neck.back_modulus;
        i.neck.board_method = modulus_method::sound_speed;
        i.neck.back_method = modulus_method::constant_moment;
        for (const double factor : {0.5, 1.0, 1.10, 1.32}) {
            i.neck.pure_bending_factor = factor;
            CHECK(near::relative(rise_with(i), today, 1e-12));
        }
        // Told of one alone the other follows the factor still.
        i.neck.back_method = modulus_method::three_point;
        i.neck.pure_bending_factor = 1.0;
        CHECK(near::relative(rise_with(i), today, 1e-12));
        i.neck.pure_bending_factor = 1.2;
        CHECK(rise_with(i) < 0.95 * today);
    }
    TEST_CASE("the doubt of the factor is none where both moduli are free of shear") {
        auto i = over<dual<double, 1>>(demo::four_course());
        i.neck.pure_bending_factor = dual<double, 1>::variable(1.10, 0);
        const auto slope = [&] {
            return solve(basic_strung_instrument<dual<double, 1>>{i, over<dual<double, 1>>(demo::unison_pairs())})
                .nut_rise.value()
                .partial[0];
        };
        CHECK(slope() < 0);
        i.neck.board_method = i.neck.back_method = modulus_method::tap_tone;
        CHECK(std::abs(slope()) < 1e-15);
    }
}
