// How many digits a whole solve has in double and in float, against the same solve in fifty digits.
//
// Both start from the same inputs (float's are rounded to float first), so that what is measured is the arithmetic alone.
// Errors are of the largest value of a kind of result over all strings and frets: what crosses zero has no error of its
// own. Constants of the library carry the 18 digits of long double.
#include <cstdio>
#include <map>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <tautline/core/leaves.hpp>

#include "../instrument.hpp"

namespace {

using fifty = boost::multiprecision::cpp_bin_float_50;
using namespace tautline;

struct spread {
    double size = 0, error = 0;
};
using spreads = std::map<std::string, spread>;

/// "strings[3].heights[11]" is one of "strings.heights".
std::string family(std::string_view path) {
    std::string name;
    bool inside = false;
    for (const char c : path) {
        if (c == '[') { inside = true; }
        if (!inside) { name += c; }
        if (c == ']') { inside = false; }
    }
    return name;
}

template <class R>
spreads measure(const instrument& built, const stringing& strung) {
    const basic_strung_instrument<R> on{over<R>(built), over<R>(strung)};
    const auto plain = solve(on);
    const auto exact = solve(over<fifty>(on));
    std::vector<fifty> want;
    for_each_leaf(exact, [&](std::string_view, const auto& x) { want.push_back(number_of(x)); });
    std::size_t row = 0;
    spreads found;
    for_each_leaf(plain, [&](std::string_view path, const auto& x) {
        auto& f = found[family(path)];
        const fifty& w = want.at(row++);
        f.size = std::max(f.size, std::abs(static_cast<double>(w)));
        const double error = std::abs(static_cast<double>(fifty(number_of(x)) - w));
        f.error = error <= f.error ? f.error : error; // not a number counts
    });
    return found;
}

} // namespace

int main() {
    const auto built = bench::with_everything(bench::make_instrument(6, 22));
    const auto strung = bench::make_stringing(6);
    const auto in_double = measure<double>(built, strung), in_float = measure<float>(built, strung);
    std::printf("%-36s %14s %14s %14s\n", "quantity", "largest, SI", "double", "float");
    for (const auto& [name, d] : in_double) {
        const auto& f = in_float.at(name);
        const auto share = [](const spread& s) { return s.size > 0 ? s.error / s.size : s.error; };
        std::printf("%-36s %14.6g %14.1e %14.1e\n", name.c_str(), d.size, share(d), share(f));
    }
}
