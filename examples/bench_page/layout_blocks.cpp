#include <tautline/job/bench_layout.hpp>

#include "blocks.hpp"

namespace bench_sheet {

namespace {

void add_places(std::vector<std::string>& row, std::initializer_list<tl::length<>> places, measures m) {
    for (const tl::length<>& q : places) { add_cells(row, show::place, q, m); }
}

block wire_block(const tl::wire_to_buy& wire, measures m) {
    std::vector<std::string> head{"fret"};
    for (const char* what : {"piece", "tang", "bent to radius"}) { add_heads(head, what, show::place, m); }
    block b{"Wire, piece by piece", {head}, {}};
    for (const tl::cut_piece& p : wire.pieces) {
        std::vector<std::string> row{std::to_string(p.fret)};
        add_places(row, {p.crown, p.tang, p.bend_radius}, m);
        b.rows.push_back(row);
    }
    return b;
}

block dots_block(const std::vector<tl::marker>& dots, measures m) {
    std::vector<std::string> head{"before fret", "how many"};
    for (const char* what : {"from the nut", "off the centre", "on the side, to either side of that"}) {
        add_heads(head, what, show::place, m);
    }
    block b{"Dots", {head}, {}};
    for (const tl::marker& d : dots) {
        std::vector<std::string> row{std::to_string(d.fret), std::to_string(d.dots)};
        add_places(row, {d.x, d.y.back(), tl::length<>(d.side_x.back() - d.x)}, m);
        b.rows.push_back(row);
    }
    return b;
}

} // namespace

std::vector<block> layout_blocks(const whole_job& w, measures m) {
    const tl::bench_layout& layout = w.a.layout;
    std::vector<block> blocks;
    if (layout.empty()) { return blocks; }
    block said{"Laid out at the bench", {}, {}};
    for (const std::string& sentence : tl::sentences_of(layout, m)) { said.sentences.push_back({shown(sentence)}); }
    blocks.push_back(said);
    if (layout.wire) { blocks.push_back(wire_block(*layout.wire, m)); }
    if (!layout.dots.empty()) { blocks.push_back(dots_block(layout.dots, m)); }
    return blocks;
}

} // namespace bench_sheet
