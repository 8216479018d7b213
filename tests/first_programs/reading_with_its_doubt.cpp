// A repairer's form: gauges as they were read, with and without a give or take.
// prints: "0.30 ± 0.01 mm" pulls 101.2 N, read to 0.01 mm
// prints: "11" is no length; write one with its unit: mm, cm, m, in
#include <iostream>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    for (const std::string typed : {"11 thou", "0.30 ± 0.01 mm", "11"}) {
        const auto read = parse_measured<length<>>(typed);
        if (!read) {
            std::cout << '"' << typed << "\" is no length; write one with its unit: " << unit_names<length<>>() << '\n';
            continue;
        }
        const auto pull = tension(plain_string(music_wire(), read->best), 650 * mm, pitch_of("E4"));
        std::cout << '"' << typed << "\" pulls " << bench_text(pull) << ", read to " << bench_text(read->give_or_take)
                  << '\n';
    }
}
