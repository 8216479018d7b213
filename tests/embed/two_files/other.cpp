#include "shop.hpp"

tautline::setup solved_in_the_other_file() {
    return tautline::solve(tautline::strung_instrument{small_guitar(), two_strings()});
}
void solve_nonsense_in_the_other_file() {
    auto wrong = small_guitar();
    wrong.board.thickness = -1 * tautline::units::mm;
    (void)tautline::solve(tautline::strung_instrument{wrong, two_strings()});
}
const void* where_the_other_file_sees_the_version() { return &tautline::version_text; }
