#include "pulls.hpp"

#include <cstdio>

int main() {
    using namespace tautline::units;
    std::printf("%.1f N\n", pull_of_first_string(22.0625 * inch) / N);
}
