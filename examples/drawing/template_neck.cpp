#include <algorithm>

#include <tautline/instrument/neck_cut.hpp>

#include "labels.hpp"
#include "template_parts.hpp"
#include "view.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

/// The places of the sections, mm from the nut, each once.
std::vector<double> cut_places(const tl::instrument& i) {
    const double joint = tl::joint_place(i) / mm;
    std::vector<double> x{0, joint};
    for (const auto& t : i.neck.traced) { x.push_back(t.x / mm); }
    for (const auto& in : i.neck.inserts) {
        x.push_back((std::max(0.0, in.x_from / mm) + std::min(joint, in.x_to / mm)) / 2);
    }
    std::sort(x.begin(), x.end());
    x.erase(std::unique(x.begin(), x.end(), [](double a, double b) { return b - a < 0.5; }), x.end());
    return x;
}

true_size section(const tl::neck_cut& cut, double side, const std::string& words) {
    extent y, z;
    for (const auto* line : {&cut.top, &cut.back}) {
        for (const auto& p : *line) { y.take(p.y / mm), z.take(p.z / mm); }
    }
    const double reach = std::max(-y.least, y.most) + 6;
    const double width = std::max(2 * reach, 118.0);
    const lettering small{.size = 2.4};
    const std::string all_words = words + " Dashed: a channel, empty. Cross: the rod's axis.";
    return {"Neck cut across", width, z.size() + 8 + lines_height(all_words, width - 8, small), [=](canvas& c) {
                const auto on = [&](double across, double up) { return place{reach + side * across, 4 + z.most - up}; };
                const auto points = [&](const std::vector<tl::cut_point>& line) {
                    std::vector<place> out;
                    for (const auto& p : line) { out.push_back(on(p.y / mm, p.z / mm)); }
                    return out;
                };
                std::vector<place> outline = points(cut.top), back = points(cut.back);
                outline.insert(outline.end(), back.rbegin(), back.rend());
                c.path(outline, {.width = 0.25}, true);
                c.path(points(cut.glue_line), {.width = 0.15});
                c.line(on(0, z.most + 1.5), on(0, z.least - 1.5), {.width = 0.12, .dash = 1.5, .gap = 0.8});
                for (const auto& in : cut.inserts) {
                    const double at = in.y / mm, top = in.top / mm, wide = in.width / mm, tall = in.tall() / mm,
                                 wall = in.wall / mm;
                    const pen edge = in.modulus > 0 * GPa ? pen{.width = 0.2} : pen{.width = 0.2, .dash = 0.8, .gap = 0.5};
                    for (const double inside : {0.0, wall}) {
                        if (in.profile == tl::insert_profile::round) {
                            c.circle(on(at, top - tall / 2), wide / 2 - inside, edge);
                        } else {
                            const double half = wide / 2 - inside;
                            const place corners[] = {on(at - half, top - inside), on(at + half, top - inside),
                                                     on(at + half, top - tall + inside),
                                                     on(at - half, top - tall + inside)};
                            c.path(corners, edge, true);
                        }
                        if (!(wall > 0)) { break; }
                    }
                }
                if (cut.rod) {
                    const double up = *cut.rod / mm;
                    c.line(on(-1.5, up), on(1.5, up), {.width = 0.15});
                    c.line(on(0, up - 1.5), on(0, up + 1.5), {.width = 0.15});
                }
                write_lines(c, {4, z.size() + 10}, all_words, width - 8, small);
            }};
}

} // namespace

std::vector<true_size> neck_sections(const subject& s, measures m) {
    std::vector<true_size> out;
    const tl::instrument& i = s.instrument;
    if (i.neck.traced.empty() && i.neck.inserts.empty()) { return out; }
    for (const double x : cut_places(i)) {
        const auto cut = tl::cut_neck<double>(i, x * mm);
        out.push_back(section(cut, s.left_handed ? -1 : 1,
                              "From the body's side, " +
                                  std::string(s.left_handed ? "bass at the right" : "bass at the left") + "; " +
                                  written_place(x * mm, m) + " from the nut, " + written_height(cut.depth, m) + " deep."));
    }
    return out;
}

} // namespace drawing
