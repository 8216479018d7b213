// A student: a flat-top with a lower saddle, a deeper slot and a first string tuned up: what changes, what is said of it?
// prints: relief 0.19 mm becomes 0.20 mm
// prints: String 1 (G#4): its core bears 86 % of the wire's least strength; it may break when tuned or bent.
#include <iostream>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/tautline.hpp>

using namespace std;
using namespace tautline;
using namespace tautline::units;

int main() {
    auto flat_top = ready_made::flat_top();
    const auto before = solve(string_up(flat_top));
    flat_top.instrument.saddle.height_bass -= 0.5 * mm;
    flat_top.instrument.nut.slot_heights[0] = 1.4 * mm;
    flat_top.strings[5].note = "G#4";
    const auto after = solve(string_up(flat_top));
    cout << "relief " << bench_text(before.relief->gap) << " becomes " << bench_text(after.relief->gap) << '\n';
    cout << "over fret 12 " << bench_text(before.strings[0].heights[11]) << " becomes "
         << bench_text(after.strings[0].heights[11]) << '\n';
    for (const auto& finding : after.findings) { cout << sentence_of(finding, after.names) << '\n'; }
}
