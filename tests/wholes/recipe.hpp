#pragma once
/// @file
/// What a random instrument is made from: a handful of whole numbers, each 0 where the instrument is plain.
///
/// All zeros are one string on a flat board without frets, no rod, no set, no soundboard, held by a bare tailpiece. A
/// failing recipe is shrunk number by number toward 0, so what is left shows what the failure needs. It is printed the way
/// it is written here, and goes into `found_before.cpp`, where it stays.

#include <string>

namespace wholes {

/// Kinds say what there is, amounts (0 to 100) how much of it.
struct recipe {
    // Strings.
    int strings = 0; ///< one more than this
    int courses = 0; ///< 0 single, 1 pairs, 2 threes, 3 the first one single and pairs
    int stuff = 0;   ///< 0 plain steel, 1 wound basses, 2 hexagonal cores, 3 ribbon and ground wraps, 4 bare ends, 5 nylon,
                     ///< 6 heavy cores, 7 weighed
    int pull = 0;    ///< of each string
    int interval = 0; ///< 0 fifths of the scale's step from string to string, else less
    int pitch = 0;    ///< of the last string
    int standard = 0; ///< pitch of A4, and a temperament where it is odd
    int uneven = 0;   ///< seed of small differences from string to string and from fret to fret; 0: none
    // Scale and board.
    int length = 0;    ///< of the scale; 0 is 650 mm
    int frets = 0;     ///< on the board
    int places = 0;    ///< 0 equal steps, 1 and 2 old divisors, 3 measured, 4 measured on a diatonic board
    int zero_fret = 0; ///< 1: there is one
    int steps = 0;     ///< 0 twelve to the octave, 1 nineteen, 2 twenty-four, 3 seven
    int taper = 0;     ///< of the board
    int arc = 0;       ///< 0 flat, 1 cylinder, 2 cone, 3 cone that ends beyond the board
    int radius = 0;    ///< of the board's arc
    int thickness = 0; ///< of the board
    int thins = 0;     ///< the board toward its end; 0: even
    int wear = 0;      ///< of the frets
    // Neck.
    int depth = 0;      ///< of the neck
    int deepens = 0;    ///< toward the joint
    int roundness = 0;  ///< of the back
    int joint = 0;      ///< frets before the last at which it meets the body
    int wood = 0;       ///< stiffness of both woods
    int yields = 0;     ///< the joint; 0: rigid
    int creep = 0;      ///< of the neck
    int set = 0;        ///< 0 none, 1 hollow, 2 back-bow, 3 wavy, 4 the nut stands high
    int set_by = 0;     ///< how far
    int rod = 0;        ///< 0 none, 1 single and held, 2 single and free, 3 two-way
    int rod_begins = 0; ///< 0 beyond the nut, else in the head
    int rod_ends = 0;   ///< 0 before the joint, else up to and past it
    int rod_deep = 0;   ///< under the board
    int rod_dips = 0;   ///< midway
    int rod_pull = 0;   ///< as it is set
    int channel = 0;    ///< under the board's middle, wider; 0: none
    int loose = 0;      ///< frets in their slots; 0: slots that count for nothing
    int sheared = 0;    ///< what bending tests of both woods lose; 0 as handbooks have it
    int state = 0;      ///< 0 as it comes, 1 near straight, 2 back-bowed, 3 near buckling
    int state_by = 0;   ///< how near, how far
    // Nut and head.
    int spacing = 0; ///< of the strings at the nut
    int gaps = 0;    ///< 1: equal gaps instead of equal centres
    int off_nut = 0; ///< of the strings' middle from the centre line at the nut
    int slots = 0;   ///< higher at the nut
    int head = 0;    ///< pitch of the headstock
    int posts = 0;   ///< how far along the head
    // Bridge.
    int end = 0;        ///< 0 tailpiece, 1 tailpiece and feet, 2 pins, 3 tie block, 4 clamp, 5 ball ends, 6 a bridge on a
                        ///< solid body, 7 the same with strings through the body
    int spread = 0;     ///< of the strings toward the bridge
    int off_saddle = 0; ///< of the strings' middle from the centre line at the saddle
    int action = 0;     ///< higher saddle
    int saddle_arc = 0; ///< 0 as the board's, 1 straight, 2 its own
    int setback = 0;    ///< of the saddle
    int slant = 0;      ///< of the saddle
    int over_top = 0;   ///< the board's line over the soundboard
    int behind = 0;     ///< how far the anchors lie
    int below = 0;      ///< how low the anchors lie
    int feet = 0;       ///< breadth and slope of what a bridge stands on
    int top = 0;        ///< 0 nothing known, else softer
    int top_turns = 0;  ///< more
    int ahead = 0;      ///< of the line a glued bridge turns about
    // Playing.
    int finger = 0;   ///< habits of the hand
    int ends = 0;     ///< how firmly a sounding string's ends hold it
    int friction = 0; ///< where strings bend
    // For tests that set something more.
    int wish = 0, more = 0, other = 0;
    // Boards, bridges and necks of other kinds.
    int fan = 0;      ///< 0 square frets, 1 two scales and a square nut, 2 two scales, 3 the treble's the longer; wants
                      ///< two courses, and then there is no divisor and nothing was measured
    int fan_by = 0;   ///< how much longer the one scale is
    int square = 0;   ///< of a fan, the fret that stands square, in quarters of a fret
    int edges = 0;    ///< of the slack board: 0 alike, 1 a twist along the neck, 2 one of them bowed, 3 each otherwise
    int edges_by = 0; ///< how far
    int single = 0;   ///< 0 one saddle for all strings, 1 each its own, 2 the same in two pieces
    int bars = 0;     ///< in the neck: 0 none, 1 bars beside the channel, 2 tubes there, 3 a round rod in the middle
    int bars_by = 0;  ///< how stiff and how wide
    int traced = 0;   ///< places at which the back was traced
    int wedged = 0;   ///< the frets' tangs in their slots
    int named = 0;    ///< 0 woods of some stiffness, else of some name
    int moister = 0;  ///< than when it was measured; 0 as it was, odd the board grows less than the back
};

/// A number of a recipe with its name and the greatest it may be.
struct dial {
    const char* name;
    int recipe::*number;
    int most;
    int plain = most < 30 ? 1 : 3; ///< how often it is 0 for nine times that it is drawn from 0 to the most, or for three
};
inline constexpr dial dials[] = {
    {"strings", &recipe::strings, 11},
    {"courses", &recipe::courses, 3},
    {"stuff", &recipe::stuff, 7},
    {"pull", &recipe::pull, 100},
    {"interval", &recipe::interval, 5},
    {"pitch", &recipe::pitch, 100},
    {"standard", &recipe::standard, 100},
    {"uneven", &recipe::uneven, 1000},
    {"length", &recipe::length, 100},
    {"frets", &recipe::frets, 24},
    {"places", &recipe::places, 4},
    {"zero_fret", &recipe::zero_fret, 1},
    {"steps", &recipe::steps, 3},
    {"taper", &recipe::taper, 100},
    {"arc", &recipe::arc, 3},
    {"radius", &recipe::radius, 100},
    {"thickness", &recipe::thickness, 100},
    {"thins", &recipe::thins, 100},
    {"wear", &recipe::wear, 100},
    {"depth", &recipe::depth, 100},
    {"deepens", &recipe::deepens, 100},
    {"roundness", &recipe::roundness, 100},
    {"joint", &recipe::joint, 12},
    {"wood", &recipe::wood, 100},
    {"yields", &recipe::yields, 100},
    {"creep", &recipe::creep, 100},
    {"set", &recipe::set, 4},
    {"set_by", &recipe::set_by, 100},
    {"rod", &recipe::rod, 3},
    {"rod_begins", &recipe::rod_begins, 100},
    {"rod_ends", &recipe::rod_ends, 100},
    {"rod_deep", &recipe::rod_deep, 100},
    {"rod_dips", &recipe::rod_dips, 100},
    {"rod_pull", &recipe::rod_pull, 100},
    {"channel", &recipe::channel, 100},
    {"loose", &recipe::loose, 100},
    {"sheared", &recipe::sheared, 100},
    {"state", &recipe::state, 3},
    {"state_by", &recipe::state_by, 100},
    {"spacing", &recipe::spacing, 100},
    {"gaps", &recipe::gaps, 1},
    {"off_nut", &recipe::off_nut, 100},
    {"slots", &recipe::slots, 100},
    {"head", &recipe::head, 100},
    {"posts", &recipe::posts, 100},
    {"end", &recipe::end, 7},
    {"spread", &recipe::spread, 100},
    {"off_saddle", &recipe::off_saddle, 100},
    {"action", &recipe::action, 100},
    {"saddle_arc", &recipe::saddle_arc, 2},
    {"setback", &recipe::setback, 100},
    {"slant", &recipe::slant, 100},
    {"over_top", &recipe::over_top, 100},
    {"behind", &recipe::behind, 100},
    {"below", &recipe::below, 100},
    {"feet", &recipe::feet, 100},
    {"top", &recipe::top, 100},
    {"top_turns", &recipe::top_turns, 100},
    {"ahead", &recipe::ahead, 100},
    {"finger", &recipe::finger, 100},
    {"ends", &recipe::ends, 100},
    {"friction", &recipe::friction, 100},
    {"wish", &recipe::wish, 100},
    {"more", &recipe::more, 100},
    {"other", &recipe::other, 100},
    {"fan", &recipe::fan, 3, 12},
    {"fan_by", &recipe::fan_by, 100},
    {"square", &recipe::square, 48},
    {"edges", &recipe::edges, 3, 12},
    {"edges_by", &recipe::edges_by, 100},
    {"single", &recipe::single, 2, 9},
    {"bars", &recipe::bars, 3, 9},
    {"bars_by", &recipe::bars_by, 100},
    {"traced", &recipe::traced, 3, 9},
    {"wedged", &recipe::wedged, 100, 9},
    {"named", &recipe::named, 3, 9},
    {"moister", &recipe::moister, 100, 6},
};

/// As it is written in code: `{.strings = 5, .end = 2}`.
[[nodiscard]] inline std::string text_of(const recipe& r) {
    std::string text = "{";
    for (const dial& d : dials) {
        if (r.*d.number == 0) { continue; }
        text += (text.size() > 1 ? ", ." : ".") + std::string(d.name) + " = " + std::to_string(r.*d.number);
    }
    return text + "}";
}

} // namespace wholes
