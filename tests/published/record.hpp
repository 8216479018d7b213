#pragma once
/// @file
/// The checks against what others have published: each compares as near.hpp does and keeps a row for docs/accuracy.md.
///
/// `CHECK(published::within("wave speed", ours, theirs, allowed))`. The test's name says the source; a decorator says how
/// it is known and against what it was held: `TEST_CASE("OpenStax ..." * published::seen)`. Checks of one name within a
/// test make one row: how many there were, and the one that came nearest to what is allowed. When the environment variable
/// TAUTLINE_ACCURACY names a file, the rows are appended to it at the end; docs/accuracy.sh makes the table.

#include <cstdio>
#include <cstdlib>
#include <map>
#include <tuple>

#include "../near.hpp"

namespace published {

/// How a source is known, and what it is, as a decorator of a test: "seen; measured". Without a word after the semicolon
/// it is computed: a formula, a definition, a standard or an average of a handbook.
struct knowledge {
    const char* text;
    void fill(doctest::detail::TestCase& test) const { test.m_description = text; }
};
inline constexpr knowledge seen{"seen"};               ///< read in the source itself
inline constexpr knowledge quoted{"seen, quoted"};     ///< read where another quotes it
inline constexpr knowledge from_memory{"from memory"}; ///< not looked up
inline constexpr knowledge reference_program{
    "reference program; reference program"}; ///< a general program named in the test
inline constexpr knowledge own_computation{
    "computed in the test"}; ///< by another method, or arithmetic on a source's inputs
inline constexpr knowledge practice{"common practice, no source"}; ///< what benches do
/// @{
/// Somebody put a thing under a load, a microphone or a balance and printed what it said.
inline constexpr knowledge measured{"seen; measured"};
inline constexpr knowledge measured_quoted{"seen, quoted; measured"};
inline constexpr knowledge measured_from_memory{"from memory; measured"};
/// @}
/// Somebody's raw recordings, which are public; the numbers were worked out of them for this test.
inline constexpr knowledge measured_here{"worked out of public recordings; measured"};

/// One row of the table: how many checks, and the worst of them.
struct row {
    int checks = 0;
    double theirs = 0, ours = 0, allowed = 0, worst = -1;
    const char* symbol = "";
};

/// All rows of a program, written when it ends.
class book {
public:
    static book& open() {
        static book the_only;
        return the_only;
    }
    void add(const char* what, const char* symbol, double ours, double theirs, double allowed) {
        const auto* test = doctest::getContextOptions()->currentTest;
        const place at{test->m_file.c_str(), test->m_line, test->m_name,
                       test->m_description ? test->m_description : "unsaid", what};
        const auto [found, first] = rows_.try_emplace(at, row{});
        if (first) { order_[at] = static_cast<int>(order_.size()); }
        row& r = found->second;
        ++r.checks;
        // Rounding differs between compilers: it must not decide which check is the worst.
        const double off = std::abs(ours - theirs), counts = is_rounding(ours, theirs) ? 0 : off / allowed;
        if (counts > r.worst + 1e-6) {
            const int checks = r.checks;
            r = {checks, theirs, ours, allowed, counts, symbol};
        }
    }
    book(const book&) = delete;
    book& operator=(const book&) = delete;

private:
    using place = std::tuple<std::string, unsigned, std::string, std::string, std::string>;

    book() = default;
    ~book() {
        const char* name = std::getenv("TAUTLINE_ACCURACY");
        std::FILE* file = name != nullptr ? std::fopen(name, "a") : nullptr;
        if (file == nullptr) { return; }
        for (const auto& [at, r] : rows_) {
            const auto& [path, line, test, known, what] = at;
            const std::string tail = path.substr(path.find("published/") + 10);
            const bool rounding = is_rounding(r.ours, r.theirs);
            const double off = r.ours - r.theirs;
            std::fprintf(file, "%s\t%05u\t%04d\t%s\t%s\t%s\t%d\t%s\t%s\t%s\t%s\t%s\t%s\n", tail.c_str(), line, order_[at],
                         test.c_str(), known.c_str(), what.c_str(), r.checks, text(r.theirs, 9).c_str(),
                         text(rounding ? r.theirs : r.ours, 6).c_str(), rounding ? "0" : text(off, 2).c_str(),
                         r.theirs == 0 ? ""
                         : rounding    ? "< 1e-9"
                                       : (text(100 * std::abs(off / r.theirs), 2) + " %").c_str(),
                         text(r.allowed, 2).c_str(), r.symbol);
        }
        std::fclose(file);
    }
    /// Whether two numbers differ by no more than rounding may.
    static bool is_rounding(double ours, double theirs) {
        return std::abs(ours - theirs) <= (theirs == 0 ? 1e-12 : 1e-9 * std::abs(theirs));
    }
    /// With so many digits; a number on the edge between two last digits falls to the same side everywhere.
    static std::string text(double v, int digits) {
        char buffer[40];
        std::snprintf(buffer, sizeof buffer, "%.*g", digits, v * (1 + 1e-10));
        return buffer;
    }

    std::map<place, row> rows_{};
    std::map<place, int> order_{};
};

/// Holds |ours - theirs| <= allowed, and keeps the row.
template <class U>
bool within(const char* what, const boost::units::quantity<U, double>& ours,
            const boost::units::quantity<U, double>& theirs, const boost::units::quantity<U, double>& allowed) {
    constexpr auto size = static_cast<double>(tautline::kind<U>::size);
    book::open().add(what, tautline::kind<U>::symbol, ours.value() / size, theirs.value() / size, allowed.value() / size);
    return near::within(ours, theirs, allowed);
}
/// The same for plain numbers; what they count ends their name: "fifth, cents".
inline bool within(const char* what, double ours, double theirs, double allowed) {
    book::open().add(what, "", ours, theirs, allowed);
    return near::within(ours, theirs, allowed);
}
/// Holds |ours - theirs| <= share * |theirs|, and keeps the row.
template <class U>
bool relative(const char* what, const boost::units::quantity<U, double>& ours,
              const boost::units::quantity<U, double>& theirs, double share) {
    return within(what, ours, theirs, boost::units::quantity<U, double>::from_value(share * std::abs(theirs.value())));
}
inline bool relative(const char* what, double ours, double theirs, double share) {
    return within(what, ours, theirs, share * std::abs(theirs));
}

/// Holds ours == theirs, and keeps the row.
inline bool same(const char* what, double ours, double theirs) { return within(what, ours, theirs, 0); }

} // namespace published
