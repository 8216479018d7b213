#include "check.hpp"

namespace wholes {

const std::vector<recipe>& found_before() {
    static const std::vector<recipe> list = {
        {}, // the plainest instrument there is
    };
    return list;
}

} // namespace wholes
