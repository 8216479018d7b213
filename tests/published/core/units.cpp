#include <tautline/core/units.hpp>

#include <fstream>
#include <map>
#include <string>

#include <tautline/core/quantity_text.hpp>

#include "published/record.hpp"

// Source: the table gnu_units.txt, written by GNU units (Debian package `units`, version 2.22) through gnu_units.py.

using namespace tautline;

namespace {

std::map<std::string, double> table() {
    std::map<std::string, double> rows;
    std::ifstream in(TAUTLINE_TEST_DATA "/gnu_units.txt");
    for (std::string line; std::getline(in, line);) {
        const auto tab = line.find('\t');
        if (tab != std::string::npos) { rows[line.substr(0, tab)] = std::stod(line.substr(tab + 1)); }
    }
    return rows;
}
/// Takes a row off the table, so that at the end none is left over.
void check_row(std::map<std::string, double>& rows, const std::string& name, long double size) {
    INFO(name);
    const auto row = rows.find(name);
    REQUIRE(row != rows.end());
    CHECK(published::relative("size in SI", static_cast<double>(size), row->second, 4e-16));
    rows.erase(row);
}
template <class U>
void check_spellings(std::map<std::string, double>& rows) {
    for (const auto& s : spelling::of<U>::list) {
        check_row(rows, std::string(kind<U>::name) + " " + std::string(s.spelled), s.size);
        const auto read = parse_quantity<bu::quantity<U, double>>("3 " + std::string(s.spelled));
        REQUIRE(read.has_value());
        CHECK(published::relative("size of three, read from text", read->value(), 3 * static_cast<double>(s.size), 4e-16));
    }
}

} // namespace

TEST_CASE("GNU units 2.22: the size of every unit tag and of every spelling" * published::reference_program) {
    auto rows = table();
#define TAG(NAME) check_row(rows, #NAME, units::NAME.size)
    TAG(metre), TAG(mm), TAG(cm), TAG(inch), TAG(thou), TAG(mm2), TAG(mm3), TAG(kg), TAG(gram), TAG(lb), TAG(second);
    TAG(Hz), TAG(kHz), TAG(metre_per_second), TAG(metre_per_second2), TAG(standard_gravity), TAG(N), TAG(kgf), TAG(lbf);
    TAG(kg_per_m), TAG(g_per_m), TAG(lb_per_in), TAG(kg_per_m3), TAG(Pa), TAG(MPa), TAG(GPa), TAG(psi), TAG(rad), TAG(deg);
    TAG(per_metre), TAG(N_per_m), TAG(N_per_mm), TAG(mm_per_N), TAG(N_m), TAG(N_mm), TAG(lbf_in), TAG(N_m_per_rad);
    TAG(mm4), TAG(N_m2), TAG(N_mm2), TAG(per_kelvin), TAG(kelvin);
#undef TAG
    check_spellings<unit::length>(rows);
    check_spellings<unit::force>(rows);
    check_spellings<unit::mass>(rows);
    check_spellings<unit::frequency>(rows);
    check_spellings<unit::linear_density>(rows);
    check_spellings<unit::density>(rows);
    check_spellings<unit::stress>(rows);
    check_spellings<unit::angle>(rows);
    check_spellings<unit::stiffness>(rows);
    check_spellings<unit::rotational_stiffness>(rows);
    check_spellings<unit::moment>(rows);
    check_spellings<unit::flexural_rigidity>(rows);
    check_spellings<unit::second_moment>(rows);
    check_spellings<unit::curvature>(rows);
    check_spellings<unit::area>(rows);
    check_spellings<unit::volume>(rows);
    check_spellings<unit::compliance>(rows);
    check_spellings<unit::duration>(rows);
    check_spellings<unit::velocity>(rows);
    check_spellings<unit::acceleration>(rows);
    check_spellings<unit::thermal_expansion>(rows);
    check_spellings<unit::temperature_difference>(rows);
    CHECK_MESSAGE(rows.empty(), rows.begin()->first);
}

TEST_CASE("units: no tag of the header is missing from the table") {
    const auto rows = table();
    std::ifstream header(TAUTLINE_TEST_DATA "/../../../include/tautline/core/units.hpp");
    int tags = 0;
    for (std::string line; std::getline(header, line);) {
        if (line.rfind("inline constexpr unit_tag<unit::", 0) != 0) { continue; }
        // "metre{1}, mm{1e-3L}": the word before each brace.
        for (auto brace = line.find('{'); brace != std::string::npos; brace = line.find('{', brace + 1)) {
            const auto start = line.find_last_of(" ", brace) + 1;
            const std::string name = line.substr(start, brace - start);
            CHECK_MESSAGE(rows.count(name) == 1, name);
            ++tags;
        }
    }
    CHECK(tags >= 42);
}
