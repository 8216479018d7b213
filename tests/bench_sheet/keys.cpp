#include "keys.hpp"

#include <set>

#include <doctest/doctest.h>

#include <tautline/job/former_names.hpp>
#include <tautline/job/input_words.hpp>
#include <tautline/job/meaning.hpp>

#include "csv_sheet.hpp"
#include "job.hpp"
#include "loose_characters.hpp"
#include "mistakes.hpp"

using namespace job_file;

TEST_SUITE("keys") {
    TEST_CASE("every key that is read has words, and every word has a key") {
        std::set<std::string> paths;
        for (const auto& k : all_keys()) {
            CAPTURE(k.path);
            CHECK_FALSE(meaning_of_key(k.path).empty());
            CHECK_FALSE(k.expected.empty());
            paths.insert(k.path);
        }
        for (const auto& w : tautline::words_of_inputs) { CHECK_MESSAGE(paths.count(std::string(w.path)) == 1, w.path); }
    }
    TEST_CASE("what must be there is in the starting file, and all of it can be read") {
        const std::string start = starting_file(starting_kinds().front());
        const auto job = parse_job(start);
        for (const auto& m : job.mistakes) { MESSAGE(m.text); }
        CHECK(job.mistakes.empty());
        // Also with its comment signs taken away from the keys of the sections it begins with.
        CHECK(job.job.strings.size() == 4);
        CHECK(start.find("qualified repairer") != std::string::npos);
    }
    TEST_CASE("a missing key is told with what it means") {
        std::string text = starting_file(starting_kinds().front());
        text.erase(text.find("thickness = \"5 mm\""), 18);
        const auto job = parse_job(text);
        REQUIRE(job.mistakes.size() == 1);
        CHECK(job.mistakes[0].text.find("thickness of the board on its centre line") != std::string::npos);
    }
    TEST_CASE("places in lists do not matter to a key's words; planned keys mean what found ones do") {
        CHECK(meaning_of_key("strings[12].gauge") == meaning_of_key("strings[].gauge"));
        CHECK(meaning_of_key("planned.nut.slot_heights") == meaning_of_key("nut.slot_heights"));
        CHECK(meaning_of_key("planned.wire.crown_height") == meaning_of_key("frets.wire.crown_height"));
        CHECK(meaning_of_key("no.such.key").empty());
    }
    TEST_CASE("a former name is no key any more, and its present one is a key or a number of the answers") {
        std::set<std::string> keys;
        for (const auto& k : all_keys()) { keys.insert(k.path); }
        for (const auto& f : tautline::former_names) {
            CAPTURE(f.before);
            CHECK(keys.count(std::string(f.before)) == 0);
            const auto number_named = [](std::string_view path) {
                const auto m = tautline::meaning_of(path);
                return m && m->pattern == path;
            };
            CHECK_FALSE(number_named(f.before));
            CHECK((keys.count(std::string(f.now)) == 1 || number_named(f.now)));
        }
    }
}

TEST_SUITE("text") {
    TEST_CASE("characters outside quotes and comments") {
        const auto loose = [](std::string_view text) { return in_ascii(text).loose_line; };
        CHECK(in_ascii("a = \"5 \xc2\xb1 1\" # \xc2\xb1\n").text == "a = \"5 \\U000000B1 1\" # ??\n");
        CHECK(in_ascii("a = \"\xf0\x9f\x8e\xb8\"").text == "a = \"\\U0001F3B8\"");
        CHECK(loose("a = \"caf\xe9\"") == 1);      // Latin-1
        CHECK(loose("a = \"\xed\xa0\x80\"") == 1); // a surrogate
        CHECK(loose("a = \"\xc0\xaf\"") == 1);     // longer than it need be
        CHECK(loose("a = 'caf\xc3\xa9'") == 1);
        CHECK(loose("a = \"5 \xc2\xb1 1 mm\" # \xc2\xb1\n") == std::nullopt);
        CHECK(loose("# one\na = 5 \xc2\xb1 1 mm\n") == 2);
        CHECK(loose("a = \"\\\"\xc2\xb1\"\nb\xc3\xa9 = 1") == 2);
        CHECK(loose("a = \"\"\"x\n\"\xc2\xb1\"\n\"\"\"\n\xc2\xb1") == 4);
        CHECK(loose("a = 'c:\\'\n\xc2\xb1") == 2);
        CHECK(loose("a = \"never ended\n\xc2\xb1") == 2);
        CHECK(loose("a = \"\\") == std::nullopt);
        CHECK(loose("") == std::nullopt);
        CHECK(loose("\xef\xbb\xbf"
                    "a = 1") == std::nullopt);
        CHECK(loose("\xff") == 1);
        CHECK(loose("a = \"\\\xef\xbb\xb7\"") == 1); // no escape
    }
    TEST_CASE("fields of a table for spreadsheets: quoted where they must be, never a formula") {
        CHECK(bench_sheet::csv_field("plain") == "plain");
        CHECK(bench_sheet::csv_field("a,b") == "\"a,b\"");
        CHECK(bench_sheet::csv_field("say \"so\"") == "\"say \"\"so\"\"\"");
        CHECK(bench_sheet::csv_field("=1+1") == "'=1+1");
        CHECK(bench_sheet::csv_field("-3") == "'-3");
        CHECK(bench_sheet::csv_field("") == "");
    }
    TEST_CASE("characters that act are written out, others left alone") {
        CHECK(shown("tab\there") == "tab\\x09here");
        CHECK(shown("\x1b[2J") == "\\x1b[2J");
        CHECK(shown("\xc2\x9b") == "\\xc2\\x9b");
        CHECK(shown("\xe2\x80\xae") == "\\xe2\\x80\\xae"); // right-to-left override
        CHECK(shown("caf\xc3\xa9 \xc2\xb1 \xe2\x80\x9cso\xe2\x80\x9d") ==
              "caf\xc3\xa9 \xc2\xb1 \xe2\x80\x9cso\xe2\x80\x9d");
        CHECK(shown("\xc2") == "\\xc2"); // cut short: nothing is read beyond the end
    }
}
