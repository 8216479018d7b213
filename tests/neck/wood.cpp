#include <tautline/neck/wood.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("woods say what is known of them and what the caller supplies") {
    const auto plum = woods::find_wood("plum");
    REQUIRE(plum.has_value());
    CHECK_FALSE(plum->modulus().has_value());
    CHECK_FALSE(plum->modulus_standard().has_value());
    CHECK_FALSE(woods::find_wood("unobtainium").has_value());
    CHECK_FALSE(woods::find_wood("").has_value());
    CHECK(woods::find_wood("sugar maple")->modulus() == 12.6 * GPa);
    CHECK(woods::find_wood("hard maple")->name == "sugar maple");
    CHECK(woods::find_wood("wenge")->modulus() == 17 * GPa);
    CHECK(woods::find_wood("wenge")->modulus_standard() == 4 * GPa);
    CHECK(near::relative(woods::find_wood("sugar maple")->density_at_12().value(), 705.6 * kg_per_m3, 1e-12));
    CHECK(woods::find_wood("teak")->density_at_12() == 713 * kg_per_m3);
    CHECK_FALSE(wood{}.density_at_12().has_value());
    CHECK(woods::find_wood("Sitka spruce")->modulus_gpa.from == provenance::from_memory);
    CHECK(woods::find_wood("cocobolo")->modulus_gpa.from == provenance::quoted);
    for (const wood& w : woods::all) {
        CAPTURE(std::string(w.name));
        if (w.radial_shrinkage.known()) { CHECK(w.radial_shrinkage.value < w.tangential_shrinkage.value); }
        if (w.radial_movement.known()) { CHECK(w.radial_movement.value < w.tangential_movement.value); }
        if (w.green_modulus_gpa.known()) { CHECK(w.green_modulus_gpa.value < w.modulus_gpa.value); }
        CHECK_FALSE(w.source.empty());
        CHECK(w.modulus_gpa.known() == (w.use_gpa > 0));
        // What is to be used lies within what is printed, and its doubt is that of a name: an eighth to a quarter.
        if (w.printed_gpa.most > 0) {
            CHECK(w.printed_gpa.least <= w.use_gpa);
            CHECK(w.use_gpa <= w.printed_gpa.most);
        }
        if (w.use_gpa > 0) {
            CHECK(w.standard_gpa > 0.12 * w.use_gpa);
            CHECK(w.standard_gpa < 0.26 * w.use_gpa);
        }
        // Names are the table's keys.
        for (const wood& other : woods::all) {
            if (&other == &w) { continue; }
            CHECK(other.name != w.name);
            CHECK(other.name != w.other_name);
            CHECK((w.other_name.empty() || other.other_name != w.other_name));
        }
    }
}

TEST_CASE("movement of a named wood: measured, else by its own fibre saturation point, else by the usual one") {
    CHECK(woods::find_wood("sugar maple")->tangential_coefficient() == 0.00353);
    CHECK(woods::find_wood("sugar maple")->radial_coefficient() == 0.00165);
    CHECK(near::relative(woods::find_wood("wenge")->tangential_coefficient().value(), 0.091 / 22, 1e-12));
    CHECK(near::relative(woods::find_wood("wenge")->radial_coefficient().value(), 0.059 / 22, 1e-12));
    CHECK(near::relative(woods::find_wood("sapele")->tangential_coefficient().value(), 0.074 / 28, 1e-12));
    CHECK_FALSE(woods::find_wood("African ebony")->tangential_coefficient().has_value());
}

TEST_CASE("a wood that is not in the table: what may be meant, and how one's own is told") {
    CHECK(woods::named("wenge").name == "wenge");
    const std::string own =
        "For another give its modulus along the grain, how that was measured and its give or take; where nothing was "
        "measured, 19 GPa for each g/cm3 of its density, give or take 40 %.";
    CHECK_THROWS_WITH((void)woods::named("mahogany"),
                      ("wood is mahogany; it must be a wood of the table, perhaps African mahogany, Honduras mahogany or "
                       "true mahogany. " +
                       own)
                          .c_str());
    CHECK_THROWS_WITH((void)woods::named("wengee"),
                      ("wood is wengee; it must be a wood of the table, perhaps wenge. " + own).c_str());
    CHECK_THROWS_WITH((void)woods::named("x"), ("wood is x; it must be a wood of the table. " + own).c_str());
    // Capitals do not matter, and a slip in one word of a name is seen.
    for (const char* slip : {"Maple", "Mapel", "MAPLES"}) {
        const auto meant = woods::near_names(slip);
        CHECK_FALSE(meant.empty());
        for (const std::string_view n : meant) { CHECK_MESSAGE(n.find("maple") != n.npos, slip, ": ", n); }
    }
    CHECK(woods::near_names("Maple") == woods::near_names("maple"));
    CHECK(woods::near_names("mahogani") == woods::near_names("mahogany"));
    CHECK(woods::near_names("").empty());
    CHECK(woods::near_names("ebony").size() == 2);
}

TEST_CASE("sources that differ by half and more are told") {
    std::vector<std::string_view> disputed;
    for (const wood& w : woods::all) {
        if (!woods::caution_of(w).empty()) { disputed.push_back(w.name); }
    }
    CHECK(disputed == std::vector<std::string_view>{"wenge", "bubinga", "purpleheart"});
    CHECK(woods::caution_of(*woods::find_wood("wenge")) ==
          "wenge: respectable sources print 11.5 to 21.05 GPa; its name alone says 17, give or take 8 GPa. Tap or bend the "
          "board itself.");
}

TEST_CASE("a modulus that is high for its wood is asked about") {
    const auto maple = woods::find_wood("sugar maple").value();
    CHECK(woods::question_about(maple, 12.6 * GPa).empty());
    CHECK_FALSE(woods::is_asked_about(maple, 15.0 * GPa));
    CHECK(woods::is_asked_about(maple, 16.5 * GPa));
    CHECK_FALSE(woods::is_asked_about(*woods::find_wood("plum"), 30 * GPa)); // of which no modulus is known
    CHECK(woods::question_about(maple, 15.0 * GPa).empty());
    CHECK(woods::question_about(maple, 16.5 * GPa) ==
          "16.5 GPa is more than five of six boards of sugar maple have (12.6, give or take 5 GPa): was it told by a tone, "
          "by sound or between two loads? Then say so beside it, since a neck's own bending is reckoned 1.1 times as stiff "
          "as "
          "a bending test says; a bending test would have said 15 GPa.");
    CHECK(woods::question_about(*woods::find_wood("plum"), 30 * GPa).empty());
    CHECK_THROWS_WITH((void)woods::question_about(maple, 0 * GPa), "modulus is 0 MPa; it must be more than 0 MPa.");
}

TEST_CASE("modulus at other moisture: itself at 12 %, the green one at 25 %, stiffer when drier") {
    CHECK(near::relative(modulus_at(12.6 * GPa, 10.7 * GPa, 12 * percent_mc), 12.6 * GPa, 1e-12));
    CHECK(near::relative(modulus_at(12.6 * GPa, 10.7 * GPa, 25 * percent_mc), 10.7 * GPa, 1e-12));
    CHECK(near::relative(modulus_at(12.6 * GPa, 10.7 * GPa, 90 * percent_mc), 10.7 * GPa, 1e-12));
    CHECK(modulus_at(12.6 * GPa, 10.7 * GPa, 6 * percent_mc) > 13 * GPa);
    CHECK_THROWS_AS((void)modulus_at(12.6 * GPa, 0 * GPa, 6 * percent_mc), invalid_input);
    CHECK_THROWS_AS((void)modulus_at(12.6 * GPa, 10 * GPa, -1 * percent_mc), invalid_input);
}

TEST_CASE("a bending test: P L^3/(48 E I) backwards") {
    for (const double e : {7.0, 12.5}) {
        const double i = 20.0 * 8 * 8 * 8 / 12; // mm^4
        const auto d = 15 * 400.0 * 400 * 400 / (48 * e * 1000 * i) * mm;
        CHECK(near::relative(modulus_from_bending_test(400 * mm, 15 * N, d, 20 * mm, 8 * mm), e * GPa, 1e-12));
    }
    CHECK_THROWS_WITH((void)modulus_from_bending_test(400 * mm, 15 * N, 0 * mm, 20 * mm, 8 * mm),
                      "deflection is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_AS((void)modulus_from_bending_test(400 * mm, -15 * N, 1 * mm, 20 * mm, 8 * mm), invalid_input);
}

TEST_CASE("a tap tone: cos(b) cosh(b) = 1 backwards") {
    const double b = 4.730040744862704;
    CHECK(near::within(std::cos(b) * std::cosh(b), 1.0, 1e-11));
    for (const double e : {8.0, 13.0}) {
        for (const double l : {0.3, 0.5}) {
            const double t = 0.007, rho = 620;
            const double f = b * b / (2 * std::numbers::pi * l * l) * std::sqrt(e * 1e9 * t * t / (12 * rho));
            CHECK(near::relative(modulus_from_tap_tone(f * Hz, l * metre, t * metre, rho * kg_per_m3), e * GPa, 1e-12));
        }
    }
    CHECK_THROWS_AS((void)modulus_from_tap_tone(0 * Hz, 0.3 * metre, 7 * mm, 600 * kg_per_m3), invalid_input);
}

TEST_CASE("movement from shrinkage is its share over the moisture it takes") {
    CHECK(near::relative(movement_from_shrinkage(4.1, 30.0), 0.041 / 30, 1e-12));
    CHECK_THROWS_AS((void)movement_from_shrinkage(-1.0, 30.0), invalid_input);
    CHECK_THROWS_AS((void)movement_from_shrinkage(4.0, 5.0), invalid_input);
}

TEST_CASE("woods: the figures of the sources, moduli in their million psi") {
    struct {
        std::string_view name;
        double modulus, green, moves_radial, moves_tangential; ///< 0: not given
    } const told[] = {
        {"sugar maple", 1.83, 1.55, 0.00165, 0.00353},
        {"bigleaf maple", 1.45, 0, 0.00126, 0.00248},
        {"black cherry", 1.49, 0, 0.00126, 0.00248},
        {"black walnut", 1.68, 1.42, 0.00190, 0.00274},
        {"yellow-poplar", 1.58, 0, 0, 0},
        {"Sitka spruce", 1.57, 0, 0, 0},
        {"western redcedar", 1.11, 0, 0, 0},
        {"African mahogany", 1.40, 1.15, 0, 0},
        {"Honduras mahogany", 1.50, 1.34, 0, 0},
        {"Indian rosewood", 1.78, 1.19, 0, 0},
        {"Brazilian rosewood", 1.88, 1.84, 0, 0},
    };
    const double million_psi = 6.894757; // GPa
    for (const auto& t : told) {
        const wood w = woods::named(t.name);
        CAPTURE(std::string(t.name));
        CHECK(near::within(w.modulus_gpa.value, t.modulus * million_psi, 0.04));
        CHECK(near::within(w.green_modulus_gpa.value, t.green * million_psi, 0.04));
        CHECK(near::within(w.radial_movement.value, t.moves_radial, 1e-9));
        CHECK(near::within(w.tangential_movement.value, t.moves_tangential, 1e-9));
        CHECK(w.method == modulus_method::three_point);
    }
}

TEST_CASE("woods: values to be used, their doubts, density, shrinkage, fibre saturation, copied once more") {
    struct {
        std::string_view name;
        double use, standard;
        bool measured;
        double density, gravity, radial, tangential, saturation; ///< 0: not given
    } const told[] = {
        {"African ebony", 17.7, 3.5, false, 1009, 0, 0, 0, 0},
        {"Asian black ebony", 18, 4, false, 1245, 0, 5.4, 8.8, 0},
        {"African blackwood", 15, 2.5, true, 1250, 0, 0, 0, 17.3},
        {"Indian rosewood", 12.0, 2.4, false, 849, 0.70, 2.7, 5.8, 0},
        {"Brazilian rosewood", 13.0, 2.6, false, 0, 0.8, 2.9, 4.6, 0},
        {"cocobolo", 18.7, 4.5, false, 1095, 0, 2.7, 4.3, 0},
        {"Honduras rosewood", 22, 5, false, 1010, 0, 0, 0, 0},
        {"sugar maple", 12.6, 2.5, false, 0, 0.63, 4.8, 9.9, 0},
        {"black maple", 11.2, 2.2, false, 0, 0.57, 4.8, 9.3, 0},
        {"red maple", 11.3, 2.3, false, 0, 0.54, 4, 8.2, 0},
        {"bigleaf maple", 10.0, 2.0, false, 0, 0.48, 3.7, 7.1, 0},
        {"sycamore maple", 10, 2, false, 620, 0, 4.2, 8.8, 0},
        {"Honduras mahogany", 10.0, 2.0, false, 0, 0.45, 3, 4.1, 0},
        {"African mahogany", 10.5, 2.1, false, 570, 0.42, 3.7, 5.5, 28},
        {"Spanish-cedar", 9.5, 1.8, true, 460, 0, 3.9, 6, 29},
        {"sapele", 11.7, 2.3, false, 673, 0, 4.6, 7.4, 0},
        {"black walnut", 11.6, 2.3, false, 0, 0.55, 5.5, 7.8, 0},
        {"European walnut", 11, 2.5, false, 595, 0, 4.3, 6.4, 0},
        {"black cherry", 10.3, 2.1, false, 0, 0.5, 3.7, 7.1, 0},
        {"wenge", 17, 4, false, 870, 0, 5.9, 9.1, 22},
        {"bubinga", 18, 4.5, false, 881, 0, 5.8, 8.4, 0},
        {"ovangkol", 20, 3.5, true, 820, 0, 3.9, 8, 24},
        {"African padauk", 11.4, 2.3, false, 745, 0, 3.3, 5.2, 0},
        {"teak", 11.2, 2.2, false, 713, 0.55, 2.5, 5.8, 0},
        {"purpleheart", 17.5, 4.5, false, 929, 0, 3.2, 6.1, 0},
        {"black locust", 14.8, 2.4, false, 734, 0, 5.5, 8.8, 0},
        {"American beech", 11.9, 2.4, false, 0, 0.64, 5.5, 11.9, 0},
        {"European beech", 13, 2.6, false, 720, 0, 5.8, 11.8, 0},
        {"hornbeam", 13.5, 3, false, 752, 0, 6.8, 11.5, 0},
        {"yellow birch", 13.9, 2.8, false, 0, 0.62, 7.3, 9.5, 0},
        {"white ash", 12.0, 2.4, false, 0, 0.6, 4.9, 7.8, 0},
        {"red alder", 9.5, 1.9, false, 0, 0.41, 4.4, 7.3, 0},
        {"American basswood", 10.1, 2.0, false, 0, 0.37, 6.6, 9.3, 0},
        {"yellow-poplar", 10.9, 2.2, false, 0, 0.42, 4.6, 8.2, 0},
        {"plum", 0, 0, false, 0, 0.705, 4.8, 7.5, 0},
        {"Sitka spruce", 10.8, 2.2, false, 0, 0.40, 4.3, 7.5, 0},
        {"western redcedar", 7.65, 1.5, false, 0, 0.32, 2.4, 5.0, 0},
    };
    CHECK(std::size(told) == woods::all.size());
    for (const auto& t : told) {
        const wood w = woods::named(t.name);
        CAPTURE(std::string(t.name));
        const auto same = [](double value, double copied) { CHECK(near::within(value, copied, 1e-9)); };
        same(w.use_gpa, t.use);
        same(w.standard_gpa, t.standard);
        CHECK(w.standard_measured == t.measured);
        same(w.air_dry_density.value, t.density);
        same(w.specific_gravity.value, t.gravity);
        same(w.radial_shrinkage.value, t.radial);
        same(w.tangential_shrinkage.value, t.tangential);
        same(w.fibre_saturation.value, t.saturation);
    }
}
