// Any bytes as a quantity: nothing, or a finite number that reads back as itself.
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include <tautline/core/quantity_text.hpp>

namespace {

template <class Q>
void try_one(std::string_view text) {
    using namespace tautline;
    if (const auto q = parse_quantity<Q>(text)) {
        if (!std::isfinite(q->value())) { std::abort(); }
        const auto shown = quantity_text<typename Q::unit_type>(static_cast<long double>(q->value()));
        const auto again = parse_quantity<Q>(shown);
        // Six digits are printed; powers of ten, which nobody writes at the bench, are not read.
        const bool plain = shown.find('e') == std::string::npos || shown.find("e") > shown.find(' ');
        if (plain && !again) { std::abort(); }
        if (again && std::abs(again->value() - q->value()) > 1e-4 * std::abs(q->value()) + 1e-300) { std::abort(); }
    }
    if (const auto m = parse_measured<Q>(text)) {
        if (!std::isfinite(m->best.value()) || !(m->give_or_take.value() >= 0)) { std::abort(); }
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    try_one<tautline::length<>>(text);
    try_one<tautline::force<>>(text);
    try_one<tautline::angle<>>(text);
    try_one<tautline::stress<>>(text);
    return 0;
}
