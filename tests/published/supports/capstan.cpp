// Rope friction against printed examples.

#include <tautline/supports/friction.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("pickedshares.com, Engineering Mechanics 1, Exercise 27: 100 kg over 3 pi/2 with 0.2 is held by 382.26 N" *
          published::seen) {
    const friction rope{0.2, 0.2};
    CHECK(published::within("force that holds", tension_beyond(rope, 100 * 9.81 * N, 270 * deg).least, 382.26 * N,
                            0.005 * N));
}

TEST_CASE("Hibbeler, Engineering Mechanics: Statics, problem 8-83 (author from memory): 250 kg, 0.20, wraps pi and 3 pi" *
          published::seen) {
    const friction rope{0.2, 0.2};
    CHECK(published::within("wraps pi: force that holds", tension_beyond(rope, 250 * 9.81 * N, 180 * deg).least,
                            1308.38 * N, 0.005 * N));
    CHECK(published::within("wraps 3 pi: force that holds", tension_beyond(rope, 250 * 9.81 * N, 540 * deg).least,
                            372.38 * N, 0.005 * N));
}

TEST_CASE("openknowledgegraph.com, friction with belt drives: 0.3 over one turn 6.6, over two turns 43" *
          published::quoted) {
    CHECK(published::within("ratio over one turn", capstan_ratio<double>(0.3, 360 * deg), 6.6, 0.05));
    CHECK(published::within("ratio over two turns", capstan_ratio<double>(0.3, 720 * deg), 43, 0.5));
}
