// A shop's form: somebody typed a gauge. What does it pull, and what is said when it is no gauge?
// prints: "11 thou" pulls 58.5 N = 13.1 lbf
// prints: gauge is "eleven"; it must be a number with its unit
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    for (const char* typed : {"11 thou", "eleven"}) {
        try {
            const auto gauge = quantity_from_text<length<>>(typed, "gauge");
            const auto pull = tension(plain_string(music_wire(), gauge), 530 * mm, pitch_of("E4"));
            std::printf("\"%s\" pulls %s\n", typed, to_text(pull, {.units = measures::both, .digits = 3}).c_str());
        } catch (const invalid_input& wrong) { std::printf("%s\n", wrong.what()); }
    }
}
