#include <algorithm>

#include <tautline/job/plan.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::strung;
strung_instrument giving() {
    auto on = strung();
    on.instrument.soundboard = soundboard{.sink_stiffness = 300 * N_per_mm,
                                          .turn_stiffness = 1e6 * N_m_per_rad,
                                          .saddle_ahead = 0 * mm,
                                          .saddle_height = 0 * mm};
    return on;
}
strung_instrument one_string() {
    auto on = strung();
    on.instrument.nut.spacing = on.instrument.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
    on.instrument.nut.slot_heights.resize(1);
    on.instrument.posts.resize(1);
    on.stringing.strings.resize(1);
    return on;
}
/// The mandolin's board with the frets of a diatonic one, as measured; the octave is fret 7.
strung_instrument diatonic() {
    auto on = strung();
    auto& i = on.instrument;
    const auto full = i.board.scale;
    i.board.scale.frets = 11;
    i.neck.joint_fret = 7;
    i.frets.wear.clear();
    for (const int step : {2, 4, 5, 7, 9, 11, 12, 14, 16, 17, 19}) {
        i.board.scale.measured_places.push_back(fret_position(full, step));
    }
    return on;
}

/// One of the 15 mixes of the four height wishes.
wishes mix(int which) {
    wishes w;
    if (which & 1) { w.first_fret_bass = 0.6 * mm; }
    if (which & 2) { w.first_fret_treble = 0.5 * mm; }
    if (which & 4) { w.action_bass = 2.4 * mm; }
    if (which & 8) { w.action_treble = 1.9 * mm; }
    return w;
}

const shortfall* find(const setup_plan& p, std::string_view wish) {
    for (const auto& f : p.shortfalls) {
        if (f.wish == wish) { return &f; }
    }
    return nullptr;
}

} // namespace

TEST_SUITE("height wishes") {
    TEST_CASE("each of the 15 mixes is met, and all else moves as little as it must") {
        for (const auto& on : {strung(), giving(), diatonic()}) {
            for (int which = 1; which < 16; ++which) {
                CAPTURE(which);
                const auto w = mix(which);
                const auto p = make_plan(on, w);
                const auto s = solve(p.adjusted);
                // Both outer strings meet them; one arc may not suit all between.
                CHECK(std::none_of(p.shortfalls.begin(), p.shortfalls.end(),
                                   [](const shortfall& f) { return !f.string_index; }));
                CHECK(p.remarks.empty());
                const auto a = static_cast<std::size_t>(p.action_fret - 1);
                CHECK(p.action_fret == (on.instrument.board.scale.measured_places.empty() ? 12 : 7));
                const auto &bass = s.strings.front(), &treble = s.strings.back();
                const auto &bass_was = p.untouched.strings.front(), &treble_was = p.untouched.strings.back();
                // Of a pair, the side that is not wished keeps its height; a pair that is not wished keeps its settings.
                const auto meets = [&](const auto& wish, bool other, const length<>& is, const length<>& was) {
                    if (wish || other) { CHECK(near::within(is, wish ? length<>(*wish) : was, 1e-6 * mm)); }
                };
                meets(w.first_fret_bass, w.first_fret(), bass.heights[0], bass_was.heights[0]);
                meets(w.first_fret_treble, w.first_fret(), treble.heights[0], treble_was.heights[0]);
                meets(w.action_bass, w.action(), bass.heights[a], bass_was.heights[a]);
                meets(w.action_treble, w.action(), treble.heights[a], treble_was.heights[a]);
                const auto &was = on.instrument, &is = p.adjusted.instrument;
                if (!w.first_fret()) {
                    CHECK(is.nut.slot_heights == was.nut.slot_heights);
                    for (const auto& c : p.slot_change) { CHECK(c == 0 * mm); }
                }
                if (!w.action()) {
                    CHECK(is.saddle.height_bass == was.saddle.height_bass);
                    CHECK(is.saddle.height_treble == was.saddle.height_treble);
                    CHECK(is.saddle.radius == was.saddle.radius);
                    CHECK(p.saddle_off_arc == 0 * mm);
                }
                CHECK(is.saddle.setback_bass == was.saddle.setback_bass);
                CHECK(is.saddle.board_line == was.saddle.board_line);
                CHECK(is.tailpiece->hinge_height == was.tailpiece->hinge_height);
                CHECK(is.neck.pull_of_rod() == was.neck.pull_of_rod());
                // Inner strings between them in proportion to their places at the nut.
                if (w.first_fret()) {
                    for (const auto& one : s.strings) {
                        const double share = (one.y_at_nut - bass.y_at_nut) / (treble.y_at_nut - bass.y_at_nut);
                        CHECK(near::within(one.heights[0], bass.heights[0] + share * (treble.heights[0] - bass.heights[0]),
                                           1e-6 * mm));
                    }
                }
            }
        }
    }
    TEST_CASE("a side that is kept is kept as it is after the work, not as the settings were") {
        // Bass action alone, and a rod that is to take out relief: the treble's action stays though the neck moves.
        auto on = strung();
        on.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 250 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        on.instrument.neck.rod_pull = 0 * N;
        auto w = mix(4);
        w.relief = 0.05 * mm;
        const auto p = make_plan(on, w);
        CHECK(p.shortfalls.empty());
        CHECK(near::within(p.solved.strings.back().heights[11], p.untouched.strings.back().heights[11], 1e-6 * mm));
        CHECK(abs(p.saddle_change.back()) > 0.02 * mm);
        for (const auto& c : p.slot_change) { CHECK(c == 0 * mm); }
    }
    TEST_CASE("a kept side that a limit will not leave alone is told") {
        auto w = mix(4);
        w.lowest_saddle = 18.6 * mm; // the treble stands at 18 mm
        const auto p = make_plan(strung(), w);
        const auto* kept = find(p, "action_treble");
        REQUIRE(kept != nullptr);
        CHECK(kept->why == "not wished, and to be kept as it was: the saddle would have to come below lowest_saddle");
        CHECK(kept->nearest.as<length<>>() > kept->wanted.as<length<>>());
    }
    TEST_CASE("one string takes the bass wish, or the treble one alone") {
        for (const int which : {1, 2, 4, 8, 5, 10, 6}) {
            CAPTURE(which);
            const auto w = mix(which);
            const auto p = make_plan(one_string(), w);
            CHECK(p.shortfalls.empty());
            const auto& one = p.solved.strings[0];
            if (w.first_fret()) { CHECK(near::within(one.heights[0], w.first_fret_bass ? 0.6 * mm : 0.5 * mm, 1e-6 * mm)); }
            if (w.action()) { CHECK(near::within(one.heights[11], w.action_bass ? 2.4 * mm : 1.9 * mm, 1e-6 * mm)); }
        }
        // One string turns no pair of wheels.
        auto raised = mix(4);
        raised.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.5 * mm};
        CHECK_FALSE(make_plan(one_string(), raised).adjusters.has_value());
        const auto p = make_plan(one_string(), mix(15));
        CHECK(near::within(p.solved.strings[0].heights[11], 2.4 * mm, 1e-6 * mm));
        REQUIRE(p.shortfalls.size() == 2);
        CHECK(p.shortfalls[0].wish == "first_fret_treble");
        CHECK(p.shortfalls[1].why == "there is one string, and it takes the bass wish");
    }
    TEST_CASE("the action is told where it is said") {
        auto w = mix(15);
        w.action_fret = 15;
        const auto p = make_plan(strung(), w);
        CHECK(p.action_fret == 15);
        CHECK(near::within(p.solved.strings.front().heights[14], 2.4 * mm, 1e-6 * mm));
        CHECK(p.solved.strings.front().heights[11] < 2.3 * mm);
        auto short_board = strung();
        short_board.instrument.board.scale.frets = 10;
        short_board.instrument.neck.joint_fret = 10;
        short_board.instrument.frets.wear.clear();
        CHECK(make_plan(short_board, {}).action_fret == 10);
        short_board.instrument.board.scale.frets = 0;
        CHECK(make_plan(short_board, {}).action_fret == 0);
    }
    TEST_CASE("on a zero fret the crown decides, and the one that would give the wish is told") {
        auto on = strung();
        on.instrument.board.scale.zero_fret = true;
        for (const int which : {1, 2, 3, 5, 15}) {
            CAPTURE(which);
            auto w = mix(which);
            const auto p = make_plan(on, w);
            CHECK(p.shortfalls.empty());
            for (const auto& c : p.slot_change) { CHECK(c == 0 * mm); }
            const bool both = w.first_fret_bass && w.first_fret_treble;
            REQUIRE(p.remarks.size() == static_cast<std::size_t>(w.first_fret_bass.has_value()) +
                                            static_cast<std::size_t>(w.first_fret_treble.has_value()) +
                                            static_cast<std::size_t>(both));
            for (const auto& r : p.remarks) {
                if (!r.number.has_value()) {
                    CHECK(both);
                    continue;
                }
                CHECK(r.sentence.find("zero fret") != std::string::npos);
                // A zero fret of that crown, all other crests where they were.
                const auto crown = r.number.as<length<>>();
                REQUIRE(crown > on.instrument.frets.wire.crown_height);
                auto taller = p.adjusted;
                for (auto& wear : taller.instrument.frets.wear) {
                    wear = wear + (crown - on.instrument.frets.wire.crown_height);
                }
                taller.instrument.frets.wire.crown_height = crown;
                auto rest = w;
                rest.first_fret_bass.reset();
                rest.first_fret_treble.reset();
                const auto s = make_plan(taller, rest).solved;
                const bool bass = r.wish == "first_fret_bass";
                CHECK(near::within((bass ? s.strings.front() : s.strings.back()).heights[0], bass ? 0.6 * mm : 0.5 * mm,
                                   2e-3 * mm));
            }
        }
        auto low = mix(3);
        low.first_fret_bass = low.first_fret_treble = 0.01 * mm;
        on.instrument.frets.wire.crown_height = 0.1 * mm;
        on.instrument.frets.wear.assign(19, 0.09 * mm);
        on.instrument.saddle.height_bass = on.instrument.saddle.height_treble = 30 * mm;
        const auto p = make_plan(on, low);
        REQUIRE_FALSE(p.remarks.empty());
        CHECK(p.remarks[0].sentence.ends_with("no crown is so low"));
        CHECK_FALSE(p.remarks[0].number.has_value());
    }
    TEST_CASE("one crown for two ends: a remark tells what its mean leaves, and that is what it leaves") {
        auto on = strung();
        on.instrument.board.scale.zero_fret = true;
        const auto w = mix(15);
        const auto p = make_plan(on, w);
        REQUIRE(p.remarks.size() == 3);
        const auto bass = p.remarks[0].number.as<length<>>(), treble = p.remarks[1].number.as<length<>>();
        REQUIRE(bass - treble > 0.02 * mm);
        const auto text = [](const length<>& q) { return bench_text(any_quantity(q)); };
        CHECK(p.remarks[2].sentence == "bass and treble ask for crowns " + text(bass - treble) +
                                           " apart, and planned.frets.zero_crown is one for both: with their mean, " +
                                           text((bass + treble) / 2.0) + ", fret 1 is left about " +
                                           text((bass - treble) / 2.0) +
                                           " too low in the bass and as much too high in the treble");
        on.instrument.frets.zero_crown = field<length<>>((bass + treble) / 2.0);
        const auto q = make_plan(on, w);
        CHECK(near::within(q.solved.strings.front().heights[0], 0.6 * mm - (bass - treble) / 2.0, 5e-3 * mm));
        CHECK(near::within(q.solved.strings.back().heights[0], 0.5 * mm + (bass - treble) / 2.0, 5e-3 * mm));
        // Ends that ask for the same crown have no such remark.
        auto same = w;
        same.first_fret_treble = field<length<>>(*same.first_fret_treble + 1.05 * (bass - treble));
        for (const auto& r : make_plan(strung_instrument(on), same).remarks) { CHECK(r.number.has_value()); }
    }
    TEST_CASE("in tune on a diatonic board: the octave's fret is found by its pitch") {
        wishes w;
        w.in_tune = true;
        const auto p = make_plan(diatonic(), w);
        CHECK(p.shortfalls.empty());
        // A straight saddle leaves each course something, and all together nothing.
        length<> left{};
        for (const auto& one : p.solved.strings) {
            REQUIRE(one.octave_setback.has_value());
            left += *one.octave_setback;
            CHECK(std::abs(one.notes[6].error / cents) < 12);
        }
        CHECK(abs(left) < 1e-6 * mm);
        CHECK(abs(p.setback_change_bass) + abs(p.setback_change_treble) > 0.5 * mm);
        auto alone = diatonic();
        alone.instrument.nut.spacing = alone.instrument.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
        alone.instrument.nut.slot_heights.resize(1);
        alone.instrument.posts.resize(1);
        alone.stringing.strings.resize(1);
        CHECK(std::abs(make_plan(alone, w).solved.strings[0].notes[6].error / cents) < 1e-3);
    }
    TEST_CASE("in tune over a bridge that turns: found where the strings draw it to") {
        auto on = strung();
        on.instrument.tailpiece.reset();
        on.instrument.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        on.instrument.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                                              .turn_stiffness = 1000 * N_m_per_rad,
                                              .saddle_ahead = 4 * mm,
                                              .saddle_height = 19 * mm};
        wishes w;
        w.in_tune = true;
        const auto p = make_plan(on, w);
        REQUIRE(p.solved.top->forward > 0.1 * mm);
        length<> left{};
        for (const auto& one : p.solved.strings) { left += *one.octave_setback; }
        CHECK(abs(left) < 1e-4 * mm);
    }
    TEST_CASE("what cannot be is answered by a sentence") {
        auto on = strung();
        on.instrument.board.scale.frets = 11;
        on.instrument.neck.joint_fret = 10;
        on.instrument.frets.wear.resize(11);
        wishes w;
        w.in_tune = true;
        auto p = make_plan(on, w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].wish == "in_tune");
        CHECK(p.shortfalls[0].why == "no fret of the board is for the octave, by which a saddle is placed");
        CHECK_FALSE(p.shortfalls[0].nearest.has_value());

        // Half octaves, measured, the octave's so far from where it belongs that the saddle would have to follow by 50 mm.
        on = strung();
        on.instrument.board.scale.steps = 2;
        on.instrument.board.scale.frets = 3;
        on.instrument.board.scale.measured_places = {170 * mm, 305 * mm, 395 * mm};
        on.instrument.neck.joint_fret = 2;
        on.instrument.frets.wear.clear();
        p = make_plan(on, w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].why == "the saddle would have to lie 50 mm or more from the scale length");
        CHECK(near::within(p.adjusted.instrument.saddle.setback_bass, 49 * mm, 1e-9 * mm));

        on = strung();
        on.instrument.board.scale.frets = 2;
        on.instrument.neck.joint_fret = 2;
        on.instrument.frets.wear.clear();
        w = {};
        w.relief = 0.1 * mm;
        p = make_plan(on, w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].why == "relief is told over three frets or more up to the joint, and there are fewer");

        w = mix(1);
        w.first_fret_bass = 21 * mm;
        p = make_plan(strung(), w);
        const auto* high = find(p, "first_fret_bass");
        REQUIRE(high != nullptr);
        CHECK(high->why == "the nut slot would have to stand more than 20 mm over the board");
    }
}
