// Work on board and crowns that stops short, against simulated instruments: each differs from its file by what the file
// doubts.
#include <tautline/job/answer.hpp>
#include <tautline/job/first_work_cut.hpp>

#include <cmath>

#include <doctest/doctest.h>

#include "drawn_instrument.hpp"
#include "job_of_demo.hpp"
#include "near.hpp"
#include "sanitized.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A neck with a set to be sanded true, or frets that are worn to be filed level.
bench_job job_to_work(bool sand, neck_held held) {
    auto j = demo::job_as_found();
    const length<> joint = joint_place(j.instrument);
    j.instrument.neck.set = {{.x = 0 * mm, .z = 0.35 * mm}, {.x = joint * 0.5, .z = 0.06 * mm}, {.x = joint, .z = 0 * mm}};
    j.instrument.frets.wire.tang_depth = 1.6 * mm;
    j.planned = plan_as_found(j);
    if (sand) {
        j.planned->sanding = sanding{.surface = j.instrument.board.surface, .held = held};
        j.planned->sanding->allowance = 0.05 * mm;
    } else {
        j.instrument.frets.wear = {0.22 * mm, 0.25 * mm, 0.18 * mm, 0.12 * mm, 0.15 * mm, 0.05 * mm, 0.08 * mm};
        j.instrument.frets.wear.resize(static_cast<std::size_t>(j.instrument.board.scale.frets), 0.02 * mm);
        j.planned->levelling = fret_levelling{.held = held};
    }
    return j;
}
/// Doubts that are stated, and none besides.
bench_job stated(bench_job j) {
    j.adjusting.usual_doubts = false;
    const auto doubt = [&](const std::string& path, const length<>& standard) {
        j.doubts.push_back({.path = path, .standard = any_quantity(standard)});
    };
    for (std::size_t k = 0; k < j.instrument.neck.set.size(); ++k) {
        doubt(messages::path_of("neck.set", k, "z"), 0.04 * mm);
    }
    doubt("neck.depth_at_nut", 0.3 * mm);
    for (std::size_t n = 0; n < j.instrument.frets.wear.size(); ++n) {
        doubt(messages::path_of("frets.wear", n), 0.01 * mm);
    }
    return j;
}
/// What real instruments need off at one place.
struct place_seen {
    std::vector<double> needs{};
    [[nodiscard]] double share_below(double taken) const {
        return static_cast<double>(std::count_if(needs.begin(), needs.end(), [&](double n) { return n < taken; })) /
               static_cast<double>(needs.size());
    }
    /// What all but one in forty need at least.
    [[nodiscard]] double least() {
        const auto at = needs.begin() + static_cast<std::ptrdiff_t>(needs.size() / 40);
        std::nth_element(needs.begin(), at, needs.end());
        return *at;
    }
};

void check_work(const bench_job& j, bool sand) {
    const auto a = answer(j);
    const auto& list = sand ? a.work_cuts.board : a.work_cuts.crowns;
    REQUIRE(list.size() > 2);
    const auto frets = static_cast<std::size_t>(j.instrument.board.scale.frets);
    std::vector<place_seen> seen(list.size());
    const length<> everywhere = *first_work_cuts::most(list);
    double deep_somewhere = 0;
    constexpr std::size_t rows = 400;
    for (std::size_t row = 0; row < rows; ++row) {
        // What the real instrument needs, by the whole job done on it.
        const auto real = setups_of(j, drawn::one_of_many(a.setups.as_found, a.found_doubts, 29, row));
        std::vector<double> needed;
        if (sand) {
            for (const auto& p : kernel::board_places(real.as_found.instrument)) {
                needed.push_back(kernel::centre_removal(*real.work.removal, p.x).value());
            }
        } else {
            for (const auto& c : list) {
                const auto n = static_cast<std::size_t>(std::stoi(c.where.substr(5)));
                REQUIRE(n <= frets);
                needed.push_back(real.work.levelling->way().cuts[n - 1].value());
            }
        }
        REQUIRE(needed.size() == list.size());
        bool deep = false;
        for (std::size_t k = 0; k < list.size(); ++k) { deep = deep || needed[k] < (list[k].last - everywhere).value(); }
        deep_somewhere += deep ? 1 : 0;
        for (std::size_t k = 0; k < list.size(); ++k) { seen[k].needs.push_back(needed[k]); }
    }
    // Nor is a board or a set of frets, left higher everywhere by the one number that is told, too deep at any place.
    CHECK(deep_somewhere / rows <= 1 / 40.0 + 3 * std::sqrt(1 / 40.0 * 39 / 40 / rows));
    double worst_without = 0;
    bool takes_some = false;
    for (std::size_t k = 0; k < list.size(); ++k) {
        CAPTURE(list[k].where);
        // One in forty, and three standard deviations of such a count.
        CHECK(seen[k].share_below(list[k].first().value()) <= 1 / 40.0 + 3 * std::sqrt(1 / 40.0 * 39 / 40 / rows));
        // What is left is no wider than it must be, but for the least that can be kept and read.
        CHECK(list[k].left.value() < 1.4 * (list[k].last.value() - seen[k].least()) + 0.03e-3);
        worst_without = std::max(worst_without, seen[k].share_below(list[k].last.value()));
        takes_some = takes_some || list[k].first() > 0.05 * mm;
    }
    // A cut made at once would be too deep on many.
    CHECK(worst_without > 0.25);
    CHECK(takes_some);
}
const bench_step& step_at(const job_answers& a, bench_stage stage) {
    for (const bench_step& s : a.steps) {
        if (s.stage == stage) { return s; }
    }
    FAIL("no such step");
    return a.steps.front();
}
bool has_line(const bench_step& s, std::string_view part) {
    return std::any_of(s.lines.begin(), s.lines.end(),
                       [&](const step_line& l) { return l.what.find(part) != std::string::npos; });
}

} // namespace

TEST_SUITE("first cut of work") {
    TEST_CASE("of forty boards thirty-nine are not sanded too deep, with usual doubts and with stated ones" *
              doctest::skip(sanitized)) {
        check_work(job_to_work(true, neck_held::slack), true);
        check_work(stated(job_to_work(true, neck_held::slack)), true);
        check_work(job_to_work(true, neck_held::as_at_pitch), true);
        check_work(stated(job_to_work(true, neck_held::as_it_will_be)), true);
    }
    TEST_CASE("of forty crowns thirty-nine are not filed too deep, with usual doubts and with stated ones" *
              doctest::skip(sanitized)) {
        check_work(job_to_work(false, neck_held::slack), false);
        check_work(stated(job_to_work(false, neck_held::slack)), false);
        check_work(job_to_work(false, neck_held::as_at_pitch), false);
        check_work(stated(job_to_work(false, neck_held::as_it_will_be)), false);
    }
    TEST_CASE("property: doubts apart leave what each leaves alone, their squares summed" * doctest::skip(sanitized)) {
        for (const bool sand : {true, false}) {
            for (const neck_held held : {neck_held::slack, neck_held::as_it_will_be}) {
                auto j = stated(job_to_work(sand, held));
                const auto cuts = [&](const bench_job& of) {
                    const auto a = answer(of);
                    return sand ? a.work_cuts.board : a.work_cuts.crowns;
                };
                // Strings count only where they bend the neck that is worked on.
                j.doubts.push_back({"strings[0].gauge", any_quantity(0.02 * mm)});
                j.doubts.push_back({"board.thickness", any_quantity(0.1 * mm)});
                const auto all = cuts(j);
                std::vector<double> squares(all.size());
                for (const auto& d : j.doubts) {
                    auto one = j;
                    one.doubts = {d};
                    const auto each = cuts(one);
                    REQUIRE(each.size() == all.size());
                    double most = 0;
                    for (std::size_t k = 0; k < all.size(); ++k) {
                        squares[k] += each[k].standard * each[k].standard;
                        most = std::max(most, each[k].standard);
                    }
                    CAPTURE(d.path);
                    if (d.path.starts_with("strings")) { CHECK((most > 0) == (held != neck_held::slack)); }
                }
                for (std::size_t k = 0; k < all.size(); ++k) {
                    CHECK(near::relative(all[k].standard * all[k].standard, squares[k], 1e-9));
                    CHECK(all[k].standard > 0);
                }
            }
        }
    }
    TEST_CASE("no first cut is the last: it is rounded to the shallow side, and the step tells it with its reading") {
        auto sure = job_to_work(true, neck_held::slack);
        sure.adjusting.usual_doubts = false; // nothing is doubted at all
        for (const auto& c : answer(sure).work_cuts.board) {
            CHECK(c.standard == 0);
            CHECK(near::within(c.left.value(), std::min(0.03e-3, c.last.value()), 1e-9));
        }
        const auto a = answer(job_to_work(true, neck_held::slack));
        for (const auto& c : a.work_cuts.board) {
            CHECK(c.left.value() >= std::min(2 * c.standard, c.last.value()) - 1e-12);
            CHECK(near::within(c.first().value() + c.left.value(), c.last.value(), 1e-15));
            CHECK(c.first() >= 0 * mm);
        }
        CHECK(near::within(a.work_cuts.board.front().last.value(),
                           kernel::centre_removal(*a.setups.work.removal, 0 * mm).value(), 1e-9));
        const auto& sanding_step = step_at(a, bench_stage::sand_board);
        CHECK(has_line(sanding_step, "the first time leave the board higher by"));
        CHECK(has_line(sanding_step, "and the allowance besides"));
        CHECK(a.work_cuts.crowns.empty());

        auto file = job_to_work(false, neck_held::slack);
        const auto b = answer(file);
        CHECK(b.work_cuts.board.empty());
        const auto& cuts = b.setups.work.levelling->way().cuts;
        for (const auto& c : b.work_cuts.crowns) {
            CHECK(near::within(c.last.value(), cuts[static_cast<std::size_t>(std::stoi(c.where.substr(5))) - 1].value(),
                               1e-9));
        }
        CHECK(has_line(step_at(b, bench_stage::level_frets), "the first time leave the crowns higher by"));
        CHECK(has_line(step_at(b, bench_stage::level_frets), "is left to file off the others"));
        CHECK_FALSE(has_line(step_at(b, bench_stage::level_frets), "less the hollow"));
        file.planned->levelling->hollow = 0.1 * mm;
        CHECK(has_line(step_at(answer(file), bench_stage::level_frets), "less the hollow there"));
    }
    TEST_CASE("there and back: what the straightedge shows after the first cut is what is left") {
        const auto a = answer(job_to_work(false, neck_held::slack));
        const auto& i = a.setups.as_found.instrument;
        const length<> left = 0.04 * mm; // any will do that leaves some frets to meet
        const auto& last = a.setups.work.levelling->way().cuts;
        std::vector<length<>> first;
        for (const auto& c : last) { first.push_back(max(length<>(), length<>(c - left))); }
        const auto filed = after_levelling<double>(a.setups.as_found, first).instrument;
        // Crests of the slack neck: those that the file met lie on a straight line, the lowest that it has not met shows
        // the light.
        const auto crest = [&](std::size_t n) {
            const auto x = kernel::fret_place(i, static_cast<int>(n) + 1);
            return (kernel::profile_height(i.neck.set, x) + kernel::crown_left(filed.frets, static_cast<int>(n) + 1))
                .value();
        };
        const auto place = [&](std::size_t n) { return kernel::fret_place(i, static_cast<int>(n) + 1).value(); };
        std::vector<std::size_t> met;
        for (std::size_t n = 0; n < first.size(); ++n) {
            if (first[n] > 0.01 * mm) { met.push_back(n); }
        }
        REQUIRE(met.size() > 2);
        const std::size_t n0 = met.front(), n1 = met.back();
        double light = 0;
        for (std::size_t n = 0; n < first.size(); ++n) {
            const double line = crest(n0) + (crest(n1) - crest(n0)) * (place(n) - place(n0)) / (place(n1) - place(n0));
            light = std::max(light, line - crest(n));
        }
        CHECK(near::within(light, left.value(), 1e-6));

        // A board: its new line stands as much higher, and shows that much light, less the allowance, where the old surface
        // is lowest.
        const auto b = answer(job_to_work(true, neck_held::slack));
        const length<> stands = *first_work_cuts::most(b.work_cuts.board);
        double most_light = -1;
        for (int k = 0; k <= 400; ++k) {
            const auto x = i.board.board_length * (k / 400.0);
            most_light =
                std::max(most_light, (stands - kernel::centre_removal(*b.setups.work.removal, length<>(x))).value());
        }
        CHECK(near::within(most_light + 0.05e-3, stands.value(), 1e-6));
    }
    TEST_CASE("edges that stood apart are told each, and so are the ends of their frets") {
        auto j = job_to_work(true, neck_held::slack);
        const auto set = j.instrument.neck.set;
        j.instrument.neck.set.clear();
        j.instrument.neck.set_bass = j.instrument.neck.set_treble = set;
        j.instrument.neck.set_treble[0].z = 0.6 * mm;
        const auto a = answer(j);
        REQUIRE(a.work_cuts.board.size() > 4);
        CHECK(a.work_cuts.board[0].where == "the nut, bass edge");
        CHECK(a.work_cuts.board[1].where == "the nut, treble edge");
        CHECK(a.work_cuts.board[1].last > a.work_cuts.board[0].last);
        for (const auto& c : a.work_cuts.board) { CHECK(c.standard > 0); }
        auto f = job_to_work(false, neck_held::slack);
        f.instrument.neck.set.clear();
        f.instrument.neck.set_bass = f.instrument.neck.set_treble = set;
        f.instrument.neck.set_treble[0].z = 0.6 * mm;
        const auto b = answer(f);
        REQUIRE_FALSE(b.work_cuts.crowns.empty());
        bool bass = false, treble = false;
        for (const auto& c : b.work_cuts.crowns) {
            bass = bass || c.where.ends_with("bass end");
            treble = treble || c.where.ends_with("treble end");
        }
        CHECK(bass);
        CHECK(treble);
    }
    TEST_CASE("what is less than its doubt is not begun, and where nothing is sanded or filed there is no first cut") {
        auto j = job_to_work(false, neck_held::slack);
        j.instrument.neck.set.clear();
        for (auto& w : j.instrument.frets.wear) { w = 0 * mm; }
        j.instrument.frets.wear[4] = 0.02 * mm;
        const auto a = answer(j);
        REQUIRE_FALSE(a.work_cuts.crowns.empty());
        for (const auto& c : a.work_cuts.crowns) { CHECK(c.first() == 0 * mm); }
        CHECK(has_line(step_at(a, bench_stage::level_frets), "the first time take nothing off"));
        const auto none = answer(demo::job_as_found());
        CHECK(none.work_cuts.board.empty());
        CHECK(none.work_cuts.crowns.empty());
    }
    TEST_CASE("readings of what it does make the first cut deeper") {
        auto j = job_to_work(true, neck_held::as_at_pitch);
        const auto before = answer(j).work_cuts;
        noted_reading r;
        r.of = "relief";
        r.value = fixed_text(answer(j).setups.found.relief->gap, mm, 3) + " ± 0.02 mm";
        j.readings = {r};
        const auto after = answer(j).work_cuts;
        REQUIRE(after.board.size() == before.board.size());
        CHECK(after.board.front().standard < before.board.front().standard);
    }
    TEST_CASE("once the board is sanded and read, only what is left to file stops short") {
        auto j = job_to_work(true, neck_held::slack);
        j.instrument.frets.wear = job_to_work(false, neck_held::slack).instrument.frets.wear;
        j.planned->levelling = fret_levelling{.held = neck_held::slack};
        const auto before = answer(j);
        CHECK_FALSE(before.work_cuts.board.empty());
        REQUIRE_FALSE(before.work_cuts.crowns.empty());
        const auto trued = do_work(before.setups.as_found, j.details, kernel::work_up_to(j, bench_stage::sand_board)).after;
        noted_reading r;
        r.of = "relief";
        r.when = "at pitch";
        r.after = "sand_board";
        r.value = fixed_text(solve(trued).relief->gap, mm, 3) + " ± 0.03 mm";
        j.readings = {r};
        const auto after = answer(j);
        CHECK(after.work_cuts.board.empty());
        REQUIRE(after.work_cuts.crowns.size() == before.work_cuts.crowns.size());
        // The wear is as doubtful as before, and the board is straight either way.
        for (std::size_t k = 0; k < after.work_cuts.crowns.size(); ++k) {
            CHECK(near::within(after.work_cuts.crowns[k].last.value(), before.work_cuts.crowns[k].last.value(), 0.02e-3));
            CHECK(after.work_cuts.crowns[k].standard < 1.1 * before.work_cuts.crowns[k].standard + 1e-6);
            CHECK(after.work_cuts.crowns[k].standard > 0);
        }
    }
}
