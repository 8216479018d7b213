#include <tautline/job/end_loads.hpp>

#include <doctest/doctest.h>

#include <tautline/instrument/ready_made.hpp>
#include <tautline/job/answer.hpp>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

std::string loads_told(bench_job j) {
    const auto a = answer(j);
    std::string text;
    for (const std::string& s : end_loads_in_words(states_of(j, a).front())) { text += s + "\n"; }
    return text;
}

} // namespace

TEST_SUITE("what the ends bear, in words") {
    TEST_CASE("only of what is there") {
        const std::string hung = loads_told(demo::job_as_found());
        CHECK(hung.find("All strings together press the saddle down with ") == 0);
        CHECK(hung.find("The tailpiece stands at ") != std::string::npos);
        CHECK(hung.find("pressing bar") == std::string::npos);
        CHECK(hung.find("The anchors behind the saddle bear ") != std::string::npos);
    }
    TEST_CASE("a pressing bar is lifted") {
        const auto order = ready_made::five_string_banjo();
        bench_job j;
        j.instrument = order.instrument;
        j.strings = order.strings;
        const std::string told = loads_told(j);
        const bool pressed = told.find("The strings lift the pressing bar with ") != std::string::npos ||
                             told.find("It is pressed down at the strings with ") != std::string::npos;
        CHECK(pressed);
    }
}
