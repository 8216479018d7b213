// How much boards of one wood differ, and what a test of the board itself leaves in doubt.

#include <tautline/doubt/linear_adjustment.hpp>
#include <tautline/doubt/usual_doubts.hpp>
#include <tautline/doubt/wood_doubt.hpp>

#include <algorithm>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE(
    "ASTM D2555 (its number from memory), clear green wood: mean and standard deviation of the modulus of 11 species" *
    published::measured) {
    struct species {
        const char* name;
        double mean, sd; ///< 1000 psi
    };
    const species all[] = {{"white fir", 1161, 249},       {"California red fir", 1170, 267}, {"grand fir", 1250, 164},
                           {"western hemlock", 1307, 258}, {"black cottonwood", 1083, 197},   {"slash pine", 1532, 295},
                           {"baldcypress", 1184, 260},     {"Port-Orford-cedar", 1297, 247},  {"subalpine fir", 1052, 182},
                           {"eastern hemlock", 1073, 236}, {"lodgepole pine", 1076, 237}};
    double mean = 0;
    for (const auto& s : all) { mean += s.sd / s.mean / 11; }
    // What the bench takes for a modulus of which nobody stated the doubt, and what the table has for a wood that nobody
    // measured on.
    const double usual = usual_standard("neck.board_modulus", 10e9).value() / 10e9;
    CHECK(published::within("usual doubt of a modulus, share", usual, mean, 0.03));
    const auto sapele = woods::named("sapele");
    CHECK(published::within("doubt of a wood's name, share", sapele.standard_gpa / sapele.use_gpa, mean, 0.01));
    for (const auto& s : all) {
        CAPTURE(s.name);
        CHECK(published::within("usual doubt against each species, share", usual, s.sd / s.mean, 0.09));
    }
}

TEST_CASE("CIRAD sheets: standard deviations of cedrela, ovangkol and moabi" * published::measured) {
    for (const char* name : {"cedrela", "ovangkol"}) {
        const auto w = woods::named(name);
        CHECK(w.standard_measured);
        const double measured_share = std::string_view(name) == "cedrela" ? 1.75 / 9.21 : 2.78 / 21.47;
        // The table's own is that of the value to be used, sources included.
        CHECK(published::within("doubt of the wood's name, share", w.standard_gpa / w.use_gpa, measured_share, 0.05));
    }
    CHECK(published::within("usual doubt of a modulus against moabi, disagrees: moabi scatters less, share",
                            usual_standard("neck.board_modulus", 21e9).value() / 21e9, 2630.0 / 21040, 0.1));
}

TEST_CASE("30 boards measured four ways (Johnson & Wichern, Applied Multivariate Statistical Analysis, data as reprinted): "
          "what is "
          "left of a static modulus once the board was tapped" *
          published::measured) {
    const double means[] = {1906.1, 1749.5, 1509.1, 1725.0}; // shock wave, vibration, static, static
    const double s[4][4] = {{105616, 94614, 87290, 94231},
                            {94614, 101510, 76137, 81064},
                            {87290, 76137, 91917, 90352},
                            {94231, 81064, 90352, 104228}};
    // The name of the wood alone: the boards' scatter.
    for (std::size_t k = 0; k < 4; ++k) {
        CHECK(published::within("usual doubt of a modulus against the boards' scatter, share",
                                usual_standard("neck.back_modulus", 1e10).value() / 1e10, std::sqrt(s[k][k]) / means[k],
                                0.06));
    }
    // Adjusted to an exact reading of one test, as the library adjusts an instrument to a reading.
    const auto left = [&](std::size_t of, std::size_t read) {
        basic_matrix<double> both(2, 2), slope(1, 2), sure(1, 1);
        both(0, 0) = s[of][of];
        both(1, 1) = s[read][read];
        both(0, 1) = both(1, 0) = s[of][read];
        slope(0, 1) = 1;
        sure(0, 0) = 1e-3;
        const basic_linear_adjustment<double> adjusted(covariance_root(both), sure, slope, {0.0});
        return std::sqrt(adjusted.covariance()(0, 0)) / means[of];
    };
    for (const std::size_t of : {2u, 3u}) {
        for (const std::size_t read : {0u, 1u}) {
            const double residual = std::sqrt(s[of][of] - s[of][read] * s[of][read] / s[read][read]) / means[of];
            CHECK(near::within(left(of, read), residual, 1e-5));
            CHECK(published::within("doubt of a tapped board, share", measured_doubt(modulus_method::tap_tone).value(),
                                    residual, 0.03));
        }
    }
    // The same boards, bent twice: 14 % apart in the mean, 7 % of doubt left. A bench's test needs its set-up told.
    CHECK(published::within("doubt of a bent board against another static test, share",
                            measured_doubt(modulus_method::three_point).value(), left(2, 3), 0.03));
    CHECK(means[3] / means[2] > 1.14);
    // A dynamic modulus is brought down by 1.10 and doubted by 6 %: the four pairs lie between 1.01 and 1.26.
    for (const std::size_t of : {2u, 3u}) {
        for (const std::size_t read : {0u, 1u}) {
            const auto down = as_bending_tests_give(modulus_method::sound_speed, means[read] * MPa);
            CHECK(published::relative("static modulus from the dynamic one, as printed", down / MPa, means[of], 0.16));
        }
    }
}

TEST_CASE("J. Ayarkwa, Y. Hirashima and Y. Sasaki: dynamic over static modulus of obeche, makore and moabi" *
          published::measured) {
    for (const double ratio_of : {1.19, 1.06, 1.12}) {
        const auto down = as_bending_tests_give(modulus_method::tap_tone, ratio_of * 10 * GPa);
        CHECK(published::within("static modulus, share of the true one", down / (10 * GPa), 1.0, 1.5 * method_doubt));
    }
}
