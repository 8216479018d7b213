// What a setup says of a neck's woods.

#include <tautline/instrument/neck_woods.hpp>
#include <tautline/setup/finding_sentence.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// What is found of woods where the demo's board is so.
std::vector<finding> of_board(std::string_view wood_name, std::optional<stress<>> given,
                              modulus_method method = modulus_method::not_told) {
    auto on = demo::strung();
    on.instrument.neck.board_wood = wood_name;
    on.instrument.neck.board_method = method;
    on.instrument.neck.board_modulus = needed<stress<>>();
    if (given) { on.instrument.neck.board_modulus = *given; }
    take_moduli(on.instrument.neck);
    std::vector<finding> found;
    for (const finding& f : solve(on).findings) {
        if (f.kind == finding_kind::wood_by_name || f.kind == finding_kind::modulus_asked_about) { found.push_back(f); }
    }
    return found;
}

} // namespace

TEST_CASE("woods whose sources differ are told where the name alone is known") {
    const auto wenge = of_board("wenge", std::nullopt);
    REQUIRE(wenge.size() == 1);
    CHECK(wenge[0].kind == finding_kind::wood_by_name);
    CHECK(wenge[0].severity == severity::note);
    CHECK(wenge[0].number.as<stress<>>() == 17 * GPa);
    CHECK(wenge[0].limit.as<stress<>>() == 4 * GPa);
    CHECK(sentence_of(wenge[0], {}) ==
          "The board's wood, wenge: respectable sources print 11.5 to 21.05 GPa; its name alone says 17, "
          "give or take 8 GPa. Tap or bend the board itself.");
    CHECK(of_board("wenge", 16 * GPa).empty());                           // somebody measured it
    CHECK(of_board("wenge", 17 * GPa, modulus_method::tap_tone).empty()); // and here
    CHECK(of_board("sapele", std::nullopt).empty());
    CHECK(of_board("", 15 * GPa).empty());
    CHECK(of_board("a plank from the shed", 15 * GPa).empty());
}

TEST_CASE("a short name is told with all that it may be") {
    const auto ebony = of_board("ebony", std::nullopt);
    REQUIRE(ebony.size() == 1);
    CHECK(sentence_of(ebony[0], {}) ==
          "The board's wood, \"ebony\", may be African ebony or Asian black ebony: their mean is taken, "
          "and its doubt holds them all. Say which it is.");
}

TEST_CASE("a modulus that is high for its wood is asked about until its method is told") {
    const auto high = of_board("sapele", 14.5 * GPa);
    REQUIRE(high.size() == 1);
    CHECK(high[0].kind == finding_kind::modulus_asked_about);
    CHECK(high[0].limit.as<stress<>>() == 14 * GPa);
    CHECK(sentence_of(high[0], {})
              .starts_with("The board's modulus: 14.5 GPa is more than five of six boards of sapele have"));
    CHECK(of_board("sapele", 13.9 * GPa).empty());
    for (const auto told : {modulus_method::three_point, modulus_method::tap_tone, modulus_method::sound_speed}) {
        CHECK(of_board("sapele", 14.5 * GPa, told).empty());
    }
    CHECK(of_board("plum", 30 * GPa).empty()); // nothing is known to hold it against
}
