#include <tautline/setup/solve.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("sounding") {
    TEST_CASE("the saddle moved back by what is asked brings the octave fret in tune") {
        auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        auto s = solve(strung_instrument{i, strung});
        REQUIRE(s.strings.front().octave_setback.has_value());
        const auto before = s.strings.front().notes[11].error;
        // Repeated, since a longer string needs more tension, which moves neck and nut by a little.
        for (int k = 0; k < 4; ++k) {
            i.saddle.setback_bass = i.saddle.setback_bass + *s.strings.front().octave_setback;
            i.saddle.setback_treble = i.saddle.setback_treble + *s.strings.back().octave_setback;
            s = solve(strung_instrument{i, strung});
        }
        CHECK(std::abs(before / cents) > 5);
        CHECK(near::within(s.strings.front().notes[11].error / cents, 0.0, 0.01));
        CHECK(near::within(s.strings.back().notes[11].error / cents, 0.0, 0.01));
    }
    TEST_CASE("a lower action is less sharp at every fret") {
        auto i = demo::four_course();
        const auto high = solve(strung_instrument{i, demo::unison_pairs()});
        i.saddle.height_bass = i.saddle.height_bass - 1.5 * mm;
        i.saddle.height_treble = i.saddle.height_treble - 1.5 * mm;
        const auto low = solve(strung_instrument{i, demo::unison_pairs()});
        for (std::size_t k = 0; k < 8; ++k) {
            for (std::size_t n = 4; n < 19; ++n) { CHECK(low.strings[k].notes[n].error < high.strings[k].notes[n].error); }
        }
    }
    TEST_CASE("a straight saddle lies between the places the strings ask for") {
        const auto s = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        REQUIRE(s.straight_saddle.has_value());
        length<> least = 1 * metre, most{}, sum{};
        for (const auto& one : s.strings) {
            const auto wanted = one.line.saddle_x + *one.octave_setback;
            least = min(least, wanted);
            most = max(most, wanted);
            sum += wanted - s.straight_saddle->at(one.y_at_saddle);
        }
        CHECK(s.straight_saddle->at(0 * mm) > least);
        CHECK(s.straight_saddle->at(0 * mm) < most);
        CHECK(abs(sum) < 1e-9 * mm); // least squares: what is too much and too little cancel
    }
    TEST_CASE("each note is what the string of that construction sounds when pressed there") {
        const auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        const auto s = solve(strung_instrument{i, strung});
        for (const std::size_t k : {std::size_t{0}, std::size_t{5}}) {
            const auto& one = s.strings[k];
            const sounding_string sounds{.mass_per_length = mass_per_length_at(strung.strings[k].string, one.tension),
                                         .open_pitch = one.pitch,
                                         .axial_stiffness = axial_stiffness(strung.strings[k].string),
                                         .bending_stiffness = core_bending_stiffness(strung.strings[k].string)};
            for (const std::size_t n : {std::size_t{1}, std::size_t{7}, std::size_t{19}}) {
                const auto note = pressed_at<double>(sounds, one.line, i.playing.finger, s.fret_x, one.crest_z, n);
                CHECK(near::within(one.notes[n - 1].error / cents, note.error / cents, 1e-9));
                CHECK(near::within(one.notes[n - 1].stretch, length<>(note.stretch), 1e-12 * mm));
            }
        }
    }
    TEST_CASE("the pull of a pressed string is the open pull and what Hooke's law adds for the stretch") {
        // A thick plain string: the pull at which it sounds as a stiff string is more than 1 % below that of a limp one.
        auto strung = demo::unison_pairs();
        const auto& thick = strung.strings[5];
        const auto s = solve(strung_instrument{demo::four_course(), strung});
        const auto& one = s.strings[5];
        const force<> rigid = axial_stiffness(thick.string);
        int stretched = 0;
        for (std::size_t n = 0; n < one.notes.size(); ++n) {
            const auto& note = one.notes[n];
            // Slack length, from the open string; then the pull that stretches it further.
            const length<> slack = one.speaking_length / (1 + one.tension / rigid);
            const force<> pulled = rigid * ((one.speaking_length + note.stretch) / slack - 1);
            CHECK(near::relative(note.tension, pulled, 1e-9));
            CHECK((note.tension > one.tension) == (note.stretch > 0 * mm));
            stretched += note.tension > one.tension;
        }
        CHECK(stretched > 15);
    }
    TEST_CASE("unless told otherwise every end is half way from hinged to clamped") {
        auto with = [](auto set) {
            auto i = demo::four_course();
            set(i.playing);
            return solve(strung_instrument{i, demo::unison_pairs()}).strings[5].notes[6].error /
                   cents; // a thick plain string: the stiffest
        };
        const double usual = with([](playing&) {});
        for (const auto end : {&playing::nut_end, &playing::fret_end, &playing::saddle_end}) {
            const double hinged = with([&](playing&p) { p.*end = 0; }), clamped = with([&](playing&p) { p.*end = 1; });
            CHECK(std::abs(clamped - hinged) > 0.1);
            CHECK(near::within(usual, (hinged + clamped) / 2, 0.05 * std::abs(clamped - hinged)));
        }
    }
    TEST_CASE("a pluck behind the middle of what sounds is taken at the middle") {
        auto i = demo::four_course();
        i.playing.pluck_from_saddle = 150 * mm;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        i.playing.pluck_from_saddle = 170 * mm;
        const auto further = solve(strung_instrument{i, demo::unison_pairs()});
        // Half of what sounds is 281 mm open, 119 mm pressed at fret 15.
        CHECK(s.strings[0].plucks[15].pull == further.strings[0].plucks[15].pull);
        CHECK(s.strings[0].plucks[0].pull != further.strings[0].plucks[0].pull);
        const auto by_hand =
            hardest_clean_pluck<double>(s.strings[0].line, s.fret_x, s.strings[0].crest_z, 15,
                                        (s.strings[0].line.saddle_x - s.fret_x[14]) / 2.0, s.strings[0].notes[14].tension);
        CHECK(near::relative(s.strings[0].plucks[15].pull, by_hand->pull, 1e-12));
    }
    TEST_CASE("a diatonic board: each note is held against the pitch its fret is for, the octave's fret found by it") {
        const auto full = demo::four_course();
        auto i = full;
        const int steps[] = {2, 4, 5, 7, 9, 11, 12, 14, 16, 17, 19};
        i.board.scale.frets = 11;
        i.neck.joint_fret = 7;
        i.frets.wear.clear();
        auto chromatic = full;
        chromatic.frets.wear.clear();
        for (const int step : steps) { i.board.scale.measured_places.push_back(fret_position(full.board.scale, step)); }
        const auto s = solve(strung_instrument{i, demo::unison_pairs()}),
                   all = solve(strung_instrument{chromatic, demo::unison_pairs()});
        CHECK(s.octave_fret == 7);
        CHECK(all.octave_fret == 12);
        for (std::size_t k = 0; k < 8; ++k) {
            for (std::size_t n = 0; n < 11; ++n) {
                // The same crests as on the chromatic board; only those between, behind the finger, are missing.
                const auto& same = all.strings[k].notes[static_cast<std::size_t>(steps[n] - 1)];
                CHECK(near::within(s.strings[k].notes[n].error / cents, same.error / cents, 2));
            }
            REQUIRE(s.strings[k].octave_setback.has_value());
            CHECK(near::within(*s.strings[k].octave_setback, *all.strings[k].octave_setback, 0.2 * mm));
        }
        CHECK(s.straight_saddle.has_value());
    }
    TEST_CASE("no octave fret, no setback") {
        auto i = demo::four_course();
        i.board.scale.frets = 11;
        i.frets.wear.resize(11);
        i.neck.joint_fret = 10;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(!s.strings[0].octave_setback.has_value());
        CHECK(!s.straight_saddle.has_value());
        CHECK(s.strings[0].notes.size() == 11);
    }
}

TEST_SUITE("ends") {
    TEST_CASE("feet bear the down-force between them, by the lever") {
        auto i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 8 * mm, .behind = 8 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.standing.has_value());
        CHECK(near::relative(s.standing->even.bass_load + s.standing->even.treble_load, s.standing->even.down, 1e-12));
        CHECK(near::relative(s.standing->even.down, s.down_force, 1e-12)); // a level soundboard
        moment<> about_middle{};
        for (std::size_t k = 0; k < 8; ++k) {
            const auto& on = s.strings[k].at_saddle.on_support;
            about_middle +=
                s.bridge_strings[k].saddle.y * on.down() + (s.bridge_strings[k].saddle.z + i.saddle.board_line) * on.y;
        }
        CHECK(near::within((s.standing->even.treble_load - s.standing->even.bass_load) * (34 * mm), about_middle,
                           1e-9 * N_m));
    }
    TEST_CASE("feet on a sloping top bear what presses square to it, where the pull meets it") {
        auto i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 5 * mm, .behind = 12 * mm, .top_slope = 4 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.standing.has_value());
        const double c = std::cos(4 * std::numbers::pi / 180), sine = std::sin(4 * std::numbers::pi / 180);
        const auto& even = s.standing->even;
        CHECK(near::relative(even.down, c * s.down_force + sine * s.push_along, 1e-12));
        CHECK(near::relative(even.push, c * s.push_along - sine * s.down_force, 1e-9));
        CHECK(near::relative(even.front_margin + even.back_margin, 17 * mm / c, 1e-12));
        // Moments about the place where the saddle's line meets the top: no lever is left there.
        moment<> turning{};
        for (std::size_t k = 0; k < 8; ++k) {
            const auto& on = s.strings[k].at_saddle.on_support;
            turning += (s.bridge_strings[k].saddle.z + i.saddle.board_line) * on.x +
                       (s.bridge_strings[k].saddle.x - 560 * mm) * on.down();
        }
        CHECK(near::within(even.down * (even.front_margin - 5 * mm / c), turning, 1e-9 * N_m));
    }
    TEST_CASE("strings end at the tailpiece's bar, its reach from where it hangs, or at the edge of the pins") {
        auto i = demo::four_course();
        auto s = solve(strung_instrument{i, demo::unison_pairs()});
        for (const auto& b : s.bridge_strings) {
            const auto dx = (560 + 180) * mm - b.anchor.x, dz = (-10 - 12.5) * mm - b.anchor.z;
            CHECK(near::relative(sqrt(dx * dx + dz * dz), 100 * mm, 1e-9));
            CHECK(near::within(b.anchor.y / mm, b.saddle.y / mm * 50 / 52, 1e-9));
        }
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 21 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 0 * mm, .saddle_exposed = 0 * mm};
        s = solve(strung_instrument{i, demo::unison_pairs()});
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& b = s.bridge_strings[k];
            CHECK(near::relative(b.anchor.x, 581 * mm, 1e-12));
            // Its underside lies on the edge, its axis half a gauge higher.
            CHECK(near::relative(b.anchor.z, (6 - 12.5) * mm + s.strings[k].gauge / 2.0, 1e-12));
        }
    }
    TEST_CASE("a pinned bridge: shear is what the strings pull along, turning that pull times its height") {
        auto i = demo::four_course();
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.pinned.has_value());
        force<> along{};
        moment<> turning{};
        for (std::size_t k = 0; k < 8; ++k) {
            along += s.pulls[k].pull;
            turning += s.pulls[k].pull * (s.pulls[k].z_saddle + i.saddle.board_line + 1.5 * mm);
        }
        // The nut has risen since the pulls were taken level with it: a small angle.
        CHECK(near::relative(s.pinned->shear, along, 1e-4));
        CHECK(near::relative(s.pinned->turning, turning, 1e-4));
    }
    TEST_CASE("a giving soundboard lowers the strings until load and sinking agree") {
        auto i = demo::four_course();
        const auto firm = solve(strung_instrument{i, demo::unison_pairs()});
        i.soundboard = soundboard{.sink_stiffness = 150 * N_per_mm,
                                  .turn_stiffness = 1e6 * N_m_per_rad,
                                  .saddle_ahead = 0 * mm,
                                  .saddle_height = 0 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.top.has_value());
        CHECK(near::relative(s.top->sink * (150 * N_per_mm), s.down_force, 1e-6));
        CHECK(s.down_force < firm.down_force);
        CHECK(s.strings[0].heights[11] < firm.strings[0].heights[11]);
        CHECK(near::within(firm.strings[0].line.saddle_z - s.strings[0].line.saddle_z, s.top->drop, 1e-9 * mm));
    }
    TEST_CASE("a top under a pinned bridge bears the speaking sides alone: pins pull up what the saddle presses down") {
        auto i = demo::four_course();
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        i.soundboard = soundboard{.sink_stiffness = 150 * N_per_mm,
                                  .turn_stiffness = 1e6 * N_m_per_rad,
                                  .saddle_ahead = 0 * mm,
                                  .saddle_height = 0 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.top.has_value());
        force<> fall{};
        for (const auto& one : s.strings) {
            fall += one.tension * ((one.line.saddle_z - one.line.nut_z) / one.speaking_length);
        }
        REQUIRE(s.top_force.has_value());
        CHECK(near::relative(*s.top_force, fall, 1e-4)); // speaking lengths are those of the unloaded neck
        CHECK(near::relative(*s.top_force, s.pinned->down, 1e-12));
        CHECK(near::relative(s.top->sink * (150 * N_per_mm), *s.top_force, 1e-9));
        CHECK(s.down_force > 5 * *s.top_force); // what the saddle bears goes up again through the pins
        // Where the strings rise toward the nut the top is lifted.
        i.saddle.board_line = 17.9 * mm;
        const auto lifted = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(*lifted.top_force < 0 * N);
        CHECK(lifted.top->sink < 0 * mm);
        CHECK(lifted.down_force > 0 * N);
    }
    TEST_CASE("pins sink and turn with the bridge they stand in: the string behind the saddle keeps its length") {
        auto i = demo::four_course();
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 52 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        const auto behind = [](const basic_setup<double>& s, std::size_t k) {
            const auto& b = s.bridge_strings[k];
            const length<> dx = b.anchor.x - b.saddle.x, dz = b.anchor.z - b.saddle.z;
            return sqrt(dx * dx + dz * dz);
        };
        const auto firm = solve(strung_instrument{i, demo::unison_pairs()});
        i.soundboard = soundboard{.sink_stiffness = 100 * N_per_mm,
                                  .turn_stiffness = 1500 * N_m_per_rad,
                                  .saddle_ahead = 4 * mm,
                                  .saddle_height = 19 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        for (std::size_t k = 0; k < 8; ++k) { CHECK(near::within(behind(s, k), behind(firm, k), 2e-3 * mm)); }
        CHECK(abs(s.bridge_strings[0].anchor.z - firm.bridge_strings[0].anchor.z) > 0.02 * mm);
    }
    TEST_CASE("head and posts ride on the neck: a bow turns the nut's break by its slope, not by its rise") {
        auto i = demo::four_course();
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        for (std::size_t k = 0; k < 8; ++k) {
            const auto straight = post_point(i.headstock, i.posts[k]);
            const auto slope = (s.bow.w[1] - s.bow.w[0]) / (s.bow.x[1] - s.bow.x[0]);
            CHECK(near::within(s.posts[k].z - straight.z, s.nut_rise + straight.x * slope, 0.01 * mm));
            CHECK(near::relative(s.strings[k].at_nut.break_angle.value(),
                                 nut_load<double>(s.bridge_strings[k].slot, s.bridge_strings[k].saddle, i.headstock,
                                                  i.posts[k], s.strings[k].tension)
                                     .break_angle.value(),
                                 0.2));
        }
        // A set lifts the whole head.
        i.neck.set = {{.x = 0 * mm, .z = 0.5 * mm}, {.x = 260 * mm, .z = 0 * mm}};
        const auto lifted = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(near::within(lifted.posts[0].z - s.posts[0].z, 0.5 * mm, 0.02 * mm));
    }
    TEST_CASE("feet sink with their soundboard: how a bridge stands hardly changes with it") {
        auto i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 5 * mm, .behind = 12 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
        const auto firm = solve(strung_instrument{i, demo::unison_pairs()});
        i.soundboard = soundboard{.sink_stiffness = 50 * N_per_mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(s.top->sink > 1 * mm);
        const auto lever = [&](const basic_setup<double>& of, const length<>& sink) {
            moment<> turning{};
            for (std::size_t k = 0; k < 8; ++k) {
                const auto& on = of.strings[k].at_saddle.on_support;
                turning += (of.bridge_strings[k].saddle.z + i.saddle.board_line + sink) * on.x +
                           (of.bridge_strings[k].saddle.x - 560 * mm) * on.down();
            }
            return length<>(turning / of.down_force);
        };
        CHECK(near::within(s.standing->even.front_margin, 5 * mm + lever(s, s.top->sink), 1e-9 * mm));
        CHECK(near::within(firm.standing->even.front_margin, 5 * mm + lever(firm, 0 * mm), 1e-9 * mm));
        // A straightedge on the frets is read against the top as it has sunk.
        CHECK(near::within(*s.line_at_saddle - *firm.line_at_saddle, s.top->sink, 0.1 * mm));
    }
    TEST_CASE("a bridge that turns with its soundboard brings the saddle forward, and down where it stands ahead") {
        auto i = demo::four_course();
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        const auto firm = solve(strung_instrument{i, demo::unison_pairs()});
        i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                                  .turn_stiffness = 2000 * N_m_per_rad,
                                  .saddle_ahead = 4 * mm,
                                  .saddle_height = 19 * mm};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.top.has_value());
        // The pull's moment about the line it turns about, not about the middle of the top.
        moment<> turning{};
        for (const auto& b : s.bridge_strings) {
            const auto pull = held_load<double>(*i.soundboard, std::vector<bridge_string>{b});
            turning += pull.turning;
        }
        CHECK(near::relative(s.top->turn.value(), turning / (2000 * N_m), 1e-9));
        CHECK(s.top->forward > 0.05 * mm);
        CHECK(s.strings[0].speaking_length < firm.strings[0].speaking_length);
        for (std::size_t k = 0; k < 8; ++k) {
            const auto &at = s.strings[k].line, &was = firm.strings[k].line;
            CHECK(near::within(was.saddle_x - at.saddle_x, s.top->turn.value() * (19 * mm), 1e-9 * mm));
            CHECK(near::within(was.saddle_z - at.saddle_z, s.top->sink + s.top->turn.value() * (4 * mm), 1e-9 * mm));
        }
    }
    TEST_CASE("the line of the frets at the saddle of a straight neck is the board's line and a crown higher") {
        auto i = demo::four_course();
        i.neck.board_modulus = i.neck.back_modulus = 1000 * GPa;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(s.line_at_saddle.has_value());
        CHECK(near::within(*s.line_at_saddle, 12.5 * mm + 0.85 * mm, 0.02 * mm));
    }
    TEST_CASE("dead bands grow with the break angle and with friction") {
        auto i = demo::four_course();
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        const auto& one = s.strings[0];
        CHECK(near::relative(one.nut_dead_band.most / cents, 600 / std::log(2.0) * 0.65 * one.at_nut.break_angle.value(),
                             1e-12));
        CHECK(near::relative(one.saddle_dead_band.least / cents,
                             600 / std::log(2.0) * 0.20 * one.at_saddle.break_angle.value(), 1e-12));
    }
}
