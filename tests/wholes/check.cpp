#include "check.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <sstream>
#include <unordered_map>

#include <rapidcheck.h>

namespace wholes {

namespace {

long from_environment(const char* name, long otherwise) {
    const char* said = std::getenv(name); // NOLINT(concurrency-mt-unsafe): nothing else runs here
    return said == nullptr ? otherwise : std::strtol(said, nullptr, 10);
}

/// A recipe whose numbers are 0 now and then, and shrink toward it.
rc::Gen<recipe> any_recipe() {
    return rc::gen::exec([] {
        recipe r;
        for (const dial& d : dials) {
            r.*d.number = *rc::gen::resize(
                rc::kNominalSize, rc::gen::weightedOneOf<int>({{static_cast<std::size_t>(d.plain), rc::gen::just(0)},
                                                               {d.most < 30 ? 9 : 3, rc::gen::inRange(0, d.most + 1)}}));
        }
        return r;
    });
}

/// Keeps RapidCheck's own reports back: what failed is told through doctest, with the recipe.
class silent : public rc::detail::TestListener {
    void onTestCaseFinished(const rc::detail::CaseDescription&) override {}
    void onShrinkTried(const rc::detail::CaseDescription&, bool) override {}
    void onTestFinished(const rc::detail::TestMetadata&, const rc::detail::TestResult&) override {}
};

/// Whether an instrument of this recipe was looked at; what is wrong goes into `wrong`.
bool look(const recipe& r, const invariant& holds, std::string& wrong) {
    wrong.clear();
    const auto made = made_from(r);
    if (!made) { return false; }
    complaints c;
    try {
        if (!holds(*made, c)) { return false; }
    } catch (const tautline::invalid_input& e) {
        c.unless(false, std::string("refused: ") + e.what());
    } catch (const std::exception& e) { c.unless(false, std::string("thrown: ") + e.what()); }
    wrong = c.text();
    return true;
}

} // namespace

void complaints::add(const std::string& line) {
    ++count_;
    if (count_ <= 8) {
        text_ += "    " + line + "\n";
    } else if (count_ == 9) {
        text_ += "    ... and more\n";
    }
}

void complaints::unless_near(const std::string& what, double got, double expected, double allowed) {
    if (std::abs(got - expected) <= allowed) { return; }
    std::ostringstream s;
    s.precision(12);
    s << what << ": " << got << ", expected " << expected;
    s.precision(3);
    s << ", off by " << got - expected << ", allowed " << allowed;
    add(s.str());
}
void complaints::unless(bool holds, const std::string& what) {
    if (!holds) { add(what); }
}

void must_hold(const char* name, int count, const invariant& holds, const std::function<void(recipe&)>& biased) {
    std::string wrong;
    for (recipe r : found_before()) {
        biased(r);
        (void)look(r, holds, wrong);
        if (!wrong.empty()) {
            FAIL_CHECK(std::string(name) << " does not hold for " << text_of(r) << ", found before:\n" << wrong);
            break; // the rest as a rule for the same reason
        }
    }
    rc::detail::TestMetadata metadata;
    metadata.id = name;
    metadata.description = name;
    rc::detail::TestParams params;
    params.seed = static_cast<std::uint64_t>(from_environment("TAUTLINE_WHOLES_SEED", 16));
    params.maxSuccess = static_cast<int>(std::max(1L, count * from_environment("TAUTLINE_WHOLES_COUNT", 100) / 100));
    params.maxDiscardRatio = 20;
    silent listener;
    recipe smallest;
    std::string what;
    const auto result = rc::detail::checkTestable(
        [&] {
            recipe r = *any_recipe();
            biased(r);
            RC_PRE(look(r, holds, wrong));
            if (!wrong.empty()) {
                smallest = r;
                what = wrong;
                RC_FAIL(wrong);
            }
        },
        metadata, params, listener, std::unordered_map<std::string, rc::detail::Reproduce>{});
    if (result.is<rc::detail::SuccessResult>()) { return; }
    if (result.is<rc::detail::FailureResult>()) {
        FAIL_CHECK(std::string(name) << " does not hold for " << text_of(smallest) << ":\n" << what);
        return;
    }
    std::ostringstream text;
    rc::detail::printResultMessage(result, text);
    FAIL_CHECK(std::string(name) << ": " << text.str());
}

bool survey::wanted() { return from_environment("TAUTLINE_WHOLES_SURVEY", 0) != 0; }

void survey::note(const std::string& name, double off, double allowed, const recipe& where) {
    row& r = rows_[name];
    ++r.seen;
    if (!(off <= allowed)) { ++r.beyond; }
    if (r.seen == 1 || !(off / allowed <= r.off / r.allowed)) { r = {off, allowed, where, r.beyond, r.seen}; }
}
void survey::print(const char* title) const {
    std::cout << title << "\n";
    for (const auto& [name, r] : rows_) {
        std::cout << (r.beyond > 0 ? "! " : "  ") << name << ": " << r.off << " at most, allowed " << r.allowed
                  << "; beyond in " << r.beyond << " of " << r.seen;
        if (r.beyond > 0 && text_of(r.where) != "{}") { std::cout << "; " << text_of(r.where); }
        std::cout << "\n";
    }
}

} // namespace wholes
