// Equilibrium moisture and movement against the Wood Handbook's tables and worked cases.

#include <tautline/neck/moisture.hpp>
#include <tautline/neck/wood.hpp>

#include <vector>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Wood Handbook table 4-2 (AH-72), as reprinted: % moisture content by relative humidity at 30, 40 ... 100 deg F. The
/// cells at 90 % above 90 deg F were not legible.
struct humidity_row {
    double humidity;
    std::vector<double> moisture;
};
const std::vector<humidity_row> table{
    {5, {1.4, 1.4, 1.4, 1.3, 1.3, 1.3, 1.2, 1.2}},          {10, {2.6, 2.6, 2.6, 2.5, 2.5, 2.4, 2.3, 2.3}},
    {15, {3.7, 3.7, 3.6, 3.6, 3.5, 3.5, 3.4, 3.3}},         {20, {4.6, 4.6, 4.6, 4.6, 4.5, 4.4, 4.3, 4.2}},
    {25, {5.5, 5.5, 5.5, 5.4, 5.4, 5.3, 5.1, 5.0}},         {30, {6.3, 6.3, 6.3, 6.2, 6.2, 6.1, 5.9, 5.8}},
    {35, {7.1, 7.1, 7.1, 7.0, 6.9, 6.8, 6.7, 6.5}},         {40, {7.9, 7.9, 7.9, 7.8, 7.7, 7.6, 7.4, 7.2}},
    {45, {8.7, 8.7, 8.7, 8.6, 8.5, 8.3, 8.1, 7.9}},         {50, {9.5, 9.5, 9.5, 9.4, 9.2, 9.1, 8.9, 8.7}},
    {55, {10.4, 10.4, 10.3, 10.2, 10.1, 9.9, 9.7, 9.5}},    {60, {11.3, 11.3, 11.2, 11.1, 11.0, 10.8, 10.5, 10.3}},
    {65, {12.4, 12.3, 12.3, 12.1, 12.0, 11.7, 11.5, 11.2}}, {70, {13.5, 13.5, 13.4, 13.3, 13.1, 12.9, 12.6, 12.3}},
    {75, {14.9, 14.9, 14.8, 14.6, 14.4, 14.2, 13.9, 13.6}}, {80, {16.5, 16.5, 16.4, 16.2, 16.0, 15.7, 15.4, 15.1}},
    {85, {18.5, 18.5, 18.4, 18.2, 17.9, 17.7, 17.3, 17.0}}, {90, {21.0, 21.0, 20.9, 20.7, 20.5, 20.2}},
};

} // namespace

TEST_CASE("Wood Handbook table 4-2, equilibrium moisture content: 142 cells within 0.06 %" * published::quoted) {
    int cells = 0;
    for (const auto& row : table) {
        for (std::size_t i = 0; i < row.moisture.size(); ++i) {
            CAPTURE(row.humidity);
            const climate air{.temperature = (30.0 + 10.0 * static_cast<double>(i)) * fahrenheit,
                              .humidity = row.humidity * percent_rh};
            CHECK(published::within("moisture content, %", equilibrium_moisture(air) / percent_mc, row.moisture[i], 0.06));
            ++cells;
        }
    }
    CHECK(cells == 142);
}

TEST_CASE("an encyclopedia's worked value (liquisearch.com, Equilibrium moisture content): 8.4 % at 60 deg C and 55 %" *
          published::seen) {
    const climate hot{.temperature = 60 * celsius, .humidity = 55 * percent_rh};
    CHECK(published::within("moisture content, %", equilibrium_moisture(hot) / percent_mc, 8.4, 0.05));
}

TEST_CASE("WOOD magazine, 2021-09: a flat-sawn red alder board of 8 in, 6 % moister, 0.0026 for 1 %, is 0.1248 in wider" *
          published::seen) {
    CHECK(published::relative("change of width", movement(8 * inch, 0.0026, 6 * percent_mc, 12 * percent_mc), 0.1248 * inch,
                              1e-9));
}

TEST_CASE("Wood Handbook table 13-5, C_R and C_T of maple, walnut and cherry, and movements reckoned from them" *
          published::seen) {
    const auto maple = woods::find_wood("sugar maple").value(), walnut = woods::find_wood("black walnut").value();
    CHECK(published::same("maple, C_R", maple.radial_movement.value, 0.00165));
    CHECK(published::same("maple, C_T", maple.tangential_movement.value, 0.00353));
    CHECK(published::same("walnut, C_R", walnut.radial_movement.value, 0.00190));
    CHECK(published::same("walnut, C_T", walnut.tangential_movement.value, 0.00274));
    CHECK(published::same("cherry, C_T", woods::find_wood("black cherry")->tangential_movement.value, 0.00248));
    CHECK(published::relative("maple, 2.25 in flat-sawn, 8 to 6 %",
                              movement(2.25 * inch, maple.tangential_movement.value, 8 * percent_mc, 6 * percent_mc),
                              -0.015885 * inch, 1e-9));
    CHECK(published::relative("walnut, 56 mm quarter-sawn, 8 to 12 %",
                              movement(56 * mm, walnut.radial_movement.value, 8 * percent_mc, 12 * percent_mc), 0.4256 * mm,
                              1e-9));
}

TEST_CASE("Wood Handbook tables 5-3 and 4-3: moduli in both units, shrinkage" * published::quoted) {
    CHECK(published::relative("modulus of black cherry", woods::find_wood("black cherry")->modulus_gpa.value * GPa,
                              1.49e6 * psi, 1e-3));
    CHECK(published::relative("modulus of African mahogany", woods::find_wood("African mahogany")->modulus_gpa.value * GPa,
                              1.4e6 * psi, 1e-3));
    CHECK(published::relative("modulus of Honduras mahogany",
                              woods::find_wood("Honduras mahogany")->modulus_gpa.value * GPa, 1.5e6 * psi, 1e-3));
    CHECK(published::relative("modulus of Indian rosewood", woods::find_wood("Indian rosewood")->modulus_gpa.value * GPa,
                              1.78e6 * psi, 1e-3));
    CHECK(published::relative("modulus of western redcedar", woods::find_wood("western redcedar")->modulus_gpa.value * GPa,
                              1.11e6 * psi, 1e-3));
    CHECK(published::same("tangential shrinkage of sugar maple, %",
                          woods::find_wood("sugar maple")->tangential_shrinkage.value, 9.9));
    CHECK(published::same("radial shrinkage of Honduras mahogany, %",
                          woods::find_wood("Honduras mahogany")->radial_shrinkage.value, 3.0));
}

TEST_CASE("Wood Handbook: total shrinkage over fibre saturation comes near its own movement coefficients" *
          published::quoted) {
    for (const wood& w : woods::all) {
        if (!w.tangential_movement.known() || !w.tangential_shrinkage.known()) { continue; }
        CAPTURE(std::string(w.name));
        CHECK(published::relative("tangential movement for 1 %",
                                  movement_from_shrinkage(w.tangential_shrinkage.value, 28.0), w.tangential_movement.value,
                                  0.1));
    }
}
