#include "profile.hpp"

#include <algorithm>

#include <tautline/board/string_path.hpp>
#include <tautline/instrument/neck_cut.hpp>
#include <tautline/supports/nut.hpp>

namespace drawing {

using namespace tautline::units;

namespace {

constexpr int samples = 80;

/// The board's rise over the straight, unloaded line. A fretless setup has a bow, too.
tl::length<double> rise_at(const subject& s, tl::length<double> x) { return tl::deflection_at<double>(s.setup.bow, x); }

/// The board's arc at a place across. A string beside the board counts as over its edge.
tl::length<double> arc_at(const tl::board& b, tl::length<double> x, tl::length<double> y) {
    const tl::length<double> half = tl::half_width_at(b, x);
    return tl::surface_height(b.surface, x, std::clamp(y, -half, half));
}

place mm_place(tl::length<double> x, tl::length<double> z) { return {x / mm, z / mm}; }

/// Bars, tubes and channels in the neck from the side, with the rod's axis.
std::vector<std::vector<place>> let_in(const subject& s, tl::length<double> joint) {
    std::vector<std::vector<place>> out;
    const auto& own = s.instrument.neck;
    if (own.inserts.empty() && own.traced.empty()) { return out; }
    const auto along = [&](tl::length<double> from, tl::length<double> to, auto&& height) {
        from = std::max<tl::length<double>>(from, 0 * mm);
        to = std::min(to, joint);
        std::vector<place> line;
        for (int k = 0; k <= samples; ++k) {
            const tl::length<double> x = from + (to - from) * (k / double(samples));
            line.push_back(mm_place(x, rise_at(s, x) + height(x)));
        }
        return line;
    };
    for (const auto& in : own.inserts) {
        auto edge = along(in.x_from, in.x_to, [&](tl::length<double>) { return tl::length<double>(in.top); });
        const auto lower =
            along(in.x_from, in.x_to, [&](tl::length<double>) { return tl::length<double>(in.top - in.tall()); });
        edge.insert(edge.end(), lower.rbegin(), lower.rend());
        edge.push_back(edge.front());
        out.push_back(std::move(edge));
    }
    if (own.rod) {
        const auto axis = [&](tl::length<double> x) {
            return tl::cut_neck<double>(s.instrument, x).rod.value_or(tl::length<double>(own.rod->z_ends));
        };
        out.push_back(along(own.rod->x_from, own.rod->x_to, axis));
    }
    return out;
}

} // namespace

string_profile profile_under(const subject& s, std::size_t string) {
    const tl::string_setup& of = s.setup.strings[string];
    const tl::string_path path{of.y_at_nut, of.y_at_saddle, of.line.nut_x, of.line.saddle_x};
    const auto board_at = [&](tl::length<double> x) {
        return rise_at(s, x) + arc_at(s.instrument.board, x, tl::y_at(path, x));
    };
    string_profile p;
    for (int k = 0; k <= samples; ++k) {
        const tl::length<double> x = s.instrument.board.board_length * (k / double(samples));
        p.board.push_back(mm_place(x, board_at(x)));
    }
    const auto& crest_x = s.setup.crest_places(of);
    for (std::size_t n = 0; n < crest_x.size(); ++n) {
        p.crests.push_back(mm_place(crest_x[n], of.crest_z[n]));
        p.feet.push_back(mm_place(crest_x[n], board_at(crest_x[n])));
    }
    p.nut = mm_place(of.line.nut_x, of.line.nut_z);
    p.saddle = mm_place(of.line.saddle_x, of.line.saddle_z);
    return p;
}

whole_profile profile_of(const subject& s) {
    const tl::instrument& i = s.instrument;
    whole_profile p;
    const tl::length<double> joint = tl::joint_place(i), end = i.board.board_length;
    for (int k = 0; k <= samples; ++k) {
        const double t = k / double(samples);
        const tl::length<double> x = end * t, under = joint * t;
        p.board.push_back(mm_place(x, rise_at(s, x)));
        p.underside.push_back(mm_place(x, rise_at(s, x) - i.board.thickness));
        const tl::length<double> deep = i.neck.traced.empty()
                                            ? i.neck.depth_at_nut + (i.neck.depth_at_joint - i.neck.depth_at_nut) * t
                                            : tl::cut_neck<double>(i, under).depth;
        p.neck.push_back(mm_place(under, rise_at(s, under) - deep));
    }
    p.inside = let_in(s, joint);
    p.joint = mm_place(joint, rise_at(s, joint));
    p.neck.insert(p.neck.begin(), p.board.front());
    p.neck.push_back(p.joint);

    // The headstock moves with the nut.
    const tl::length<double> up = rise_at(s, 0 * mm);
    const double fall = std::sin(i.headstock.pitch / rad), run = std::cos(i.headstock.pitch / rad);
    tl::length<double> reach{};
    for (const auto& post : i.posts) { reach = std::max<tl::length<double>>(reach, post.along); }
    reach += 15 * mm;
    p.head = {p.board.front(), mm_place(-i.headstock.face_start, up - i.headstock.face_drop),
              mm_place(-i.headstock.face_start - run * reach, up - i.headstock.face_drop - fall * reach)};

    const tl::length<double> top = -i.saddle.board_line, line_x = tl::saddle_line_at(i, 0 * mm);
    for (const std::size_t k : {std::size_t(0), s.setup.strings.size() - 1}) {
        const tl::bridge_string& b = s.setup.bridge_strings[k];
        p.posts.push_back(mm_place(s.setup.posts[k].x, s.setup.posts[k].z));
        const tl::point &behind = s.setup.behind_nut[k], &held = s.setup.string_ends[k];
        p.strings.push_back({mm_place(behind.x, behind.z), mm_place(b.slot.x, b.slot.z), mm_place(b.saddle.x, b.saddle.z),
                             mm_place(b.anchor.x, b.anchor.z)});
        p.anchor = mm_place(held.x, held.z);
        const bool carried = s.setup.strings[k].frets_behind == 0;
        if (carried && (k == 0 || s.setup.strings[0].frets_behind > 0)) { p.nut = p.strings.back()[1]; }
        if (s.setup.strings[k].at_guide) { p.beyond.push_back({p.posts.back(), p.strings.back().front()}); }
        if (i.pressing_bar) { p.beyond.push_back({p.strings.back().back(), p.anchor}); }
    }
    const place crown = p.strings.front()[2];
    tl::length<double> body_end = tl::length<double>::from_value(p.anchor.x * 1e-3) + 15 * mm;
    if (i.tailpiece) {
        const auto hinge_x = line_x + i.tailpiece->hinge_distance;
        p.tailpiece = {mm_place(hinge_x, top + i.tailpiece->hinge_height), p.anchor};
        body_end = hinge_x;
    }
    p.end = i.tailpiece ? "tailpiece" : i.pins ? "pins" : i.tie_block ? "tie block" : "strings' ends";
    p.top = i.body_bridge ? "body's face" : "soundboard's plane";
    p.soundboard = {mm_place(joint, top), mm_place(body_end, top)};
    const double top_mm = top / mm;
    if (i.feet) {
        const double slope = std::tan(i.feet->top_slope / rad), ahead = i.feet->ahead / mm, behind = i.feet->behind / mm;
        p.bridge = {{line_x / mm - ahead, top_mm - ahead * slope},
                    {crown.x, crown.y},
                    {line_x / mm + behind, top_mm + behind * slope}};
    } else if (!i.tailpiece) {
        // Only the saddle and the strings' ends are known of a fixed bridge; what is between is drawn to join them. Where
        // the strings run into the body it stands no lower than the body's face.
        const auto over = i.pins ? i.pins->height : i.tie_block ? i.tie_block->hole_height : i.body_bridge->height;
        const double wood = std::max(top_mm, top_mm + over / mm);
        p.bridge = {{crown.x - 5, top_mm}, {crown.x - 2, wood},    {crown.x, crown.y},
                    {crown.x + 1.5, wood}, {p.anchor.x + 8, wood}, {p.anchor.x + 8, top_mm}};
    } else {
        p.bridge = {{crown.x - 6, top_mm}, {crown.x, crown.y}, {crown.x + 6, top_mm}};
    }
    return p;
}

} // namespace drawing
