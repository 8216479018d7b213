#include "materials.hpp"

#include <cstdio>

#include <tautline/strings/material_names.hpp>

namespace job_file {

namespace {

namespace tl = tautline;

std::string rounded(double value, const char* format) {
    char text[32];
    (void)std::snprintf(text, sizeof text, format, value);
    return text;
}
/// Least strength: the material's own, or its values at the thinnest and thickest wire of strings.
std::string strength_of(const tl::wire_material& m) {
    using namespace tl::units;
    const auto at = [&](const tl::length<>& d) {
        const auto s = tl::minimum_strength<double>(m, d);
        return s ? rounded(*s / MPa, "%.0f") : std::string();
    };
    const std::string thin = at(0.2 * mm), thick = at(1 * mm);
    if (thin.empty()) { return "unknown"; }
    return thin == thick ? thin + " MPa" : thin + " MPa at 0.2 mm, " + thick + " at 1 mm";
}

} // namespace

std::string materials_document() {
    using namespace tl::units;
    std::string text =
        "# Materials of strings\n\n"
        "What `material`, `wrap` and `inner_wrap` of a job file may be. Capitals, hyphens and slips of one letter or two "
        "do "
        "not matter. The values are those of the alloy or polymer in general: a string's own are what a balance and a "
        "stretching test say. Strength is the least to expect; where it is unknown, the sheet cannot say how near a string "
        "is to breaking. This page is printed by `bench_sheet --materials`.\n\n"
        "| name | also | density, kg/m3 | modulus, GPa | strength | from where |\n|---|---|---|---|---|---|\n";
    for (const tl::wire_material& m : tl::wire_materials()) {
        std::string also;
        for (const tl::material_byname& by : tl::material_bynames) {
            if (by.meant == m.name) { also += (also.empty() ? "" : ", ") + std::string(by.said); }
        }
        text += "| " + std::string(m.name) + " | " + also + " | " +
                rounded(tl::density<>(m.mass_density) / kg_per_m3, "%.0f") + " | " +
                rounded(tl::stress<>(m.modulus) / GPa, "%.5g") + " | " + strength_of(m) + " | " + std::string(m.source) +
                " |\n";
    }
    return text + "\nShort names: common practice, no source. \"bronze\" alone is asked about: it may be 80/20 or phosphor "
                  "bronze.\n";
}

} // namespace job_file
