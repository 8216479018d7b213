#include "layout.hpp"

#include <cmath>

#include "../text/columns.hpp"
#include "mistakes.hpp"

namespace job_file {

namespace {

namespace tl = tautline;
using tl::measures;

/// Cells of one quantity: one, or two in both units.
void add(std::vector<std::string>& row, const tl::shown_kind& as, const tl::any_quantity& q, measures m) {
    as.each(m, [&](const tl::shown_unit& u) { row.push_back(tl::shown_number(q, u)); });
}
void add_head(std::vector<std::string>& row, const std::string& what, const tl::shown_kind& as, measures m) {
    as.each(m, [&](const tl::shown_unit& u) { row.push_back(what + " " + std::string(u.name)); });
}

std::string wire_text(const tl::wire_to_buy& wire, measures m) {
    std::vector<std::string> head{"fret"};
    for (const char* what : {"piece", "tang", "bent to radius"}) { add_head(head, what, tl::show::place, m); }
    safe_text::text_table table(head);
    for (const tl::cut_piece& p : wire.pieces) {
        std::vector<std::string> row{std::to_string(p.fret)};
        for (const tl::length<>& q : {p.crown, p.tang, p.bend_radius}) { add(row, tl::show::place, q, m); }
        table.row(row);
    }
    return "  Wire to buy: " + tl::bench_text(wire.all, {.units = m}) + ", spare included.\n" + table.text();
}

std::string dots_text(const std::vector<tl::marker>& dots, measures m) {
    std::vector<std::string> head{"dots before fret", "how many"};
    add_head(head, "from the nut", tl::show::place, m);
    add_head(head, "off the centre", tl::show::place, m);
    add_head(head, "on the side, to either side of that", tl::show::place, m);
    safe_text::text_table table(head);
    for (const tl::marker& d : dots) {
        std::vector<std::string> row{std::to_string(d.fret), std::to_string(d.dots)};
        add(row, tl::show::place, d.x, m);
        add(row, tl::show::place, d.y.back(), m);
        add(row, tl::show::place, tl::length<>(d.side_x.back() - d.x), m);
        table.row(row);
    }
    return table.text();
}

} // namespace

std::string objects_text(const tl::job_state& j, measures m) {
    if (j.objects.empty()) { return ""; }
    const auto text = [&](const tl::length<>& q) { return tl::bench_text(q, tl::show::height, {.units = m}); };
    const auto degrees = [](const tl::angle<>& a) { return tl::fixed_text(a, tl::units::deg, 1); };
    std::string all = "Under the strings: least clearance, open and pressed at the last fret\n";
    for (std::size_t i = 0; i < j.objects.size(); ++i) {
        const tl::object_seat& a = j.seats[i];
        std::string line = shown(j.objects[i].name.empty() ? "object" : j.objects[i].name) + ": " + text(a.open);
        if (a.pressed) { line += ", pressed " + text(*a.pressed); }
        all += safe_text::wrapped(line + "; parallel to the strings when it rises " + degrees(a.along) +
                                      " deg toward the bridge, " + degrees(a.across) + " deg toward the treble.",
                                  2);
    }
    return all;
}

std::string layout_text(const tl::bench_layout& layout, measures m) {
    if (layout.empty()) { return ""; }
    std::string text = "Laid out at the bench\n";
    for (const std::string& sentence : tl::sentences_of(layout, m)) { text += safe_text::wrapped(shown(sentence), 2, 106); }
    if (layout.wire) { text += wire_text(*layout.wire, m); }
    if (!layout.dots.empty()) { text += dots_text(layout.dots, m); }
    return text;
}

} // namespace job_file
