#include "templates.hpp"

#include "template_parts.hpp"

namespace drawing {

sheets templates(const heading& h, const subject& found, const subject* planned) {
    const subject& latest = planned ? *planned : found;
    std::vector<true_size> things{fret_template(latest, h.measures)};
    for (auto& g : arc_gauges(found, planned, h.measures)) { things.push_back(std::move(g)); }
    for (auto& t : slot_templates(latest, h.measures)) { things.push_back(std::move(t)); }
    for (auto& t : bridge_templates(latest, h.measures)) { things.push_back(std::move(t)); }
    for (auto& t : neck_sections(latest, h.measures)) { things.push_back(std::move(t)); }
    return {
        "templates",
        true_size_pages(h, planned ? "Templates in true size, as planned." : "Templates in true size, as found.", things)};
}

} // namespace drawing
