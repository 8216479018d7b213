// Mistakes on the command line: each is answered in a sentence as those of a job file are, with exit code 2 and nothing
// printed.
#include <filesystem>
#include <set>
#include <sstream>
#include <vector>

#include "run_program.hpp"

namespace {

using namespace program;

/// An option as the test knows it: how it is given rightly, what it asks for (nothing: it only says more), with what else
/// it goes.
struct option {
    std::string name, value;
    bool asks;
    std::set<std::string> goes_with;
    bool again = false;
};
const std::set<std::string> in_units{"sheet",  "--explain", "--list",   "--drawings",
                                     "--vary", "--through", "--sample", "--page"};
std::vector<option> options() {
    const std::string folder = scratch() + "/folder", file = scratch() + "/file";
    return {
        {"--units", "metric", false, in_units},
        {"--fine", "", false, {"sheet", "--drawings", "--page"}},
        {"--detail", "", false, {"sheet"}},
        {"--steps", "", false, {"sheet"}},
        {"--changes", "", false, {"sheet"}},
        {"--budget", "", false, {"sheet"}},
        {"--paper", "letter", false, {"--drawings"}},
        {"--as-read",
         "",
         false,
         {"sheet", "--explain", "--list", "--json", "--csv", "--drawings", "--vary", "--through", "--sample", "--page"}},
        {"--seed", "3", false, {"--sample"}},
        {"--part", "3/8", false, {"--vary", "--through", "--sample"}},
        {"--table", "relief.gap", false, {"--vary", "--through", "--sample"}, true},
        {"--out",
         file,
         false,
         {"sheet", "--explain", "--list", "--json", "--csv", "--vary", "--through", "--sample", "--check", "--new",
          "--keys", "--materials"}},
        {"--explain", "relief.gap", true, {}},
        {"--list", "", true, {}},
        {"--json", "", true, {}},
        {"--csv", "", true, {"--vary", "--through", "--sample"}},
        {"--drawings", folder, true, {}},
        {"--page", file, true, {}},
        {"--vary", "a4 '430 Hz' '440 Hz' 2", true, {"--through"}, true},
        {"--through", "a4 '440 Hz'", true, {"--vary"}, true},
        {"--sample", "5", true, {}},
        {"--check", "", true, {}},
        {"--new", "pinned", true, {}},
        {"--keys", "", true, {}},
        {"--materials", "", true, {}}};
}
std::string given(const option& o) { return o.name + (o.value.empty() ? "" : " " + o.value); }
/// A small job, which is answered soonest.
std::string begun_job() {
    const std::string file = scratch() + "/begun.toml";
    std::ofstream(file) << run("--new pinned").out;
    return file;
}
bool reads_job(const option& o) { return o.name != "--new" && o.name != "--keys" && o.name != "--materials"; }

void check_mistake(const std::string& arguments, const std::string& said) {
    const auto r = run(arguments);
    CAPTURE(arguments);
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK_MESSAGE(has(r.err, "bench_sheet: " + said), r.err);
    CHECK(has(r.err, "bench_sheet: --help says what there is\n"));
}

} // namespace

TEST_SUITE("command line") {
    TEST_CASE("the test knows every option that there is") {
        std::istringstream help(run("--help").out);
        std::set<std::string> there, known;
        for (std::string line; std::getline(help, line);) {
            const auto at = line.find("--");
            if (at != std::string::npos && at <= 5) { there.insert(line.substr(at, line.find(' ', at) - at)); }
        }
        known.insert("--help");
        for (const option& o : options()) { known.insert(o.name); }
        CHECK(there == known);
    }
    TEST_CASE("any two options: they go together, or it is said that they do not") {
        const auto all = options();
        int together = 0, refused = 0;
        const std::string begun = begun_job();
        for (std::size_t i = 0; i < all.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                const option &one = all[k], &other = all[i];
                const bool job = reads_job(one) && reads_job(other);
                const std::string arguments = (job ? begun + " " : "") + given(one) + " " + given(other);
                CAPTURE(arguments);
                // Two that only say more go together where the sheet takes both.
                const bool go = one.asks && other.asks
                                    ? one.goes_with.contains(other.name) || other.goes_with.contains(one.name)
                                : one.asks   ? other.goes_with.contains(one.name)
                                : other.asks ? one.goes_with.contains(other.name)
                                             : one.goes_with.contains("sheet") && other.goes_with.contains("sheet");
                std::filesystem::remove_all(scratch() + "/folder");
                std::filesystem::remove_all(scratch() + "/file");
                if (go) {
                    // The same input twice is another mistake.
                    if (one.name == "--vary" && other.name == "--through") { continue; }
                    const auto r = run(arguments);
                    CHECK_MESSAGE(r.code == 0, r.err);
                    ++together;
                    continue;
                }
                const auto r = run(arguments);
                CHECK(r.code == 2);
                CHECK(r.out.empty());
                const bool told = one.asks && other.asks ? has(r.err, "are given together; expected one of them\n") &&
                                                               has(r.err, one.name) && has(r.err, other.name)
                                                         : has(r.err, one.name + " is given with ") ||
                                                               has(r.err, other.name + " is given with ");
                CHECK_MESSAGE(told, r.err);
                CHECK(!std::filesystem::exists(scratch() + "/folder"));
                CHECK(!std::filesystem::exists(scratch() + "/file"));
                ++refused;
            }
        }
        CHECK(together > 20);
        CHECK(refused > 100);
    }
    TEST_CASE("each option without its value, with an empty one, with another option for it, twice") {
        for (const option& o : options()) {
            const std::string job = reads_job(o) ? four_courses + " " : "";
            if (o.value.empty()) {
                check_mistake(job + o.name + "=yes", o.name + " is given a value; expected it alone");
                continue;
            }
            check_mistake(job + o.name, o.name + " lacks what follows it; expected ");
            const bool many = o.name == "--vary" || o.name == "--through";
            if (!many) {
                check_mistake(job + o.name + " ''", o.name + " is \"\"; expected ");
                check_mistake(job + o.name + " --json", o.name + " is \"--json\"; expected ");
            } else {
                check_mistake(job + o.name + " a4", o.name + " lacks what follows it; expected the name of an input");
            }
            if (!o.again) { check_mistake(job + given(o) + " " + given(o), o.name + " is given 2 times; expected once"); }
        }
    }
    TEST_CASE("options may stand before the job file") {
        const std::string begun = begun_job();
        for (const char* given : {"--units both", "--explain relief.gap", "--table relief.gap --through a4 '430 Hz'"}) {
            CAPTURE(given);
            const auto before = run(std::string(given) + " " + begun), behind = run(begun + " " + given);
            CHECK_MESSAGE(before.code == 0, before.err);
            CHECK(before.out == behind.out);
        }
    }
    TEST_CASE("values that no option takes") {
        check_mistake(four_courses + " --units furlongs", "--units is \"furlongs\"; expected metric, imperial or both");
        check_mistake(four_courses + " --units Metric", "--units is \"Metric\"; expected metric, imperial or both");
        check_mistake(four_courses + " --drawings d --paper a5", "--paper is \"a5\"; expected a4 or letter");
        for (const char* count : {"0", "1", "-5", "2000001", "many", "1e3", "3.5", "99999999999999999999999"}) {
            check_mistake(four_courses + " --sample " + count,
                          std::string("--sample is \"") + count + "\"; expected a whole number of variants, 2 to 2000000");
        }
        for (const char* seed : {"-1", "x", "0x3", "18446744073709551616"}) {
            check_mistake(four_courses + " --sample 5 --seed " + seed,
                          std::string("--seed is \"") + seed + "\"; expected a whole number, 0 or more");
        }
        for (const char* part : {"0/8", "9/8", "x", "3/0", "-1/8", "3", "3/", "/8", "3/8/2", " 3/8", "3 / 8", "+3/8",
                                 "0x3/8", "1/2000001", "1/99999999999999999999999"}) {
            check_mistake(four_courses + " --through a4 '440 Hz' --part '" + part + "'",
                          std::string("--part is \"") + part + "\"; expected a part and how many there are, 1/8 to 8/8");
        }
        check_mistake(four_courses + " --part 1/2 --units both --through a4 '440 Hz'",
                      "--units is \"both\"; expected metric");
        check_mistake(four_courses + " --csv --units both --through a4 '440 Hz'",
                      "--units is \"both\"; expected metric or imperial with --csv");
    }
    TEST_CASE("no job file, two of them, one where none is read, options that are none") {
        check_mistake("", "the job file is missing; expected its name");
        check_mistake("--json", "the job file is missing; expected its name");
        check_mistake("''", "the job file is \"\"; expected its name");
        check_mistake(four_courses + " other.toml", "\"other.toml\" is one name too many; expected one job file");
        check_mistake(
            "--new my_job.toml",
            "--new is \"my_job.toml\"; expected pinned, floating, solid, slotted_nylon, zero_fret, banjo or fanned_bass");
        check_mistake("--new pinned my_job.toml",
                      "\"my_job.toml\" is given with --new; expected no job file, for none is read (--out");
        check_mistake("--keys my_job.toml", "\"my_job.toml\" is given with --keys; expected no job file");
        check_mistake(four_courses + " --unit metric", "unknown option \"--unit\"; did you mean \"--units\"?");
        check_mistake(four_courses + " --drawing=d", "unknown option \"--drawing=d\"; did you mean \"--drawings\"?");
        check_mistake(four_courses + " --frobnicate", "unknown option \"--frobnicate\"\n");
        check_mistake(four_courses + " -x", "unknown option \"-x\"\n");
        // All at once.
        const auto r = run(four_courses + " --seed x --paper a5 --units z");
        for (const char* said :
             {"--seed is \"x\"", "--paper is \"a5\"", "--units is \"z\"", "--seed is given with the sheet",
              "--paper is given with the sheet; expected only with --drawings\n"}) {
            CHECK_MESSAGE(has(r.err, said), r.err);
        }
        // What follows "--" is no option, but a name.
        CHECK(has(run("-- --none.toml").err, "cannot read --none.toml"));
    }
    TEST_CASE("what cannot be varied or tabled is a mistake of the command line, not of the file") {
        const std::string begun = begun_job();
        const auto told = [&](const std::string& arguments, const std::string& said) {
            // Only what names a string needs the courses.
            const auto r = run((has(said, "string") || has(said, "course") ? four_courses : begun) + " " + arguments);
            CAPTURE(arguments);
            CHECK(r.code == 2);
            CHECK(r.out.empty());
            CHECK_MESSAGE(r.err == "bench_sheet: " + said + "\n", r.err);
        };
        told("--vary neck.depth_at_nt '20 mm' '22 mm' 3",
             "--vary is \"neck.depth_at_nt\"; it must be the name of a number of the instrument or its strings, such as "
             "neck.depth_at_nut.");
        told("--vary neck.depth_at_nut '20' '22 mm' 3",
             "--vary neck.depth_at_nut, from, is \"20\"; it must be a length with "
             "its unit (mm, cm, m, in, inch, inches, \", thou, "
             "um).");
        told("--vary neck.depth_at_nut '20 mm' '22 N' 3", "--vary neck.depth_at_nut, to, is \"22 N\"; it must be a length "
                                                          "with its unit (mm, cm, m, in, inch, inches, \", thou, "
                                                          "um).");
        for (const char* count : {"0", "2.5", "100001", "-1"}) {
            told(std::string("--vary neck.depth_at_nut '20 mm' '22 mm' ") + count,
                 std::string("--vary neck.depth_at_nut, how many, is \"") + count +
                     "\"; it must be a whole number, 1 to 100000.");
        }
        for (const char* count : {"x", "nan"}) {
            told(std::string("--vary neck.depth_at_nut '20 mm' '22 mm' ") + count,
                 std::string("--vary neck.depth_at_nut, how many, is \"") + count + "\"; it must be a number.");
        }
        told("--through a4 '440 Hz,'", "--through a4 is \"\"; it must be a frequency with its unit (Hz, kHz).");
        told("--through neck.back_exponent '1.5, wide'", "--through neck.back_exponent is \"wide\"; it must be a number.");
        told("--through 'strings[0].gauge' '36 thou'", "--through is \"strings[0].gauge\"; it must be the gauge of a plain "
                                                       "string; of a wound one vary string.core.diameter "
                                                       "or string.layers[0].thickness.");
        for (const std::string none : {"strings[99].gauge", "string 9a.gauge", "string 4.gauge", "posts[8].across"}) {
            told("--through '" + none + "' '11 thou'", "--through is \"" + none +
                                                           "\"; it must be of a string that is there; there are courses 1 "
                                                           "(E4) to 4 (G2); 4a is course 4 (G2), its "
                                                           "bass-side string.");
        }
        told("--through a4 '440 Hz' --vary standard.a4 '430 Hz' '440 Hz' 2", "standard.a4 must be varied once.");
        told("--vary neck.depth_at_nut '20 mm' '22 mm' 2000 --vary board.thickness '5 mm' '6 mm' 2000",
             "what is varied must make at most 2000000 variants together.");
        told("--through a4 '440 Hz' --table releif.gap",
             "--table is \"releif.gap\"; it must be the name of a result, such as relief.gap.");
        told("--through a4 '440 Hz' --table relief.gap --table relief.gap",
             "--table is \"relief.gap\"; it must name each result once.");
        const auto sure = run(std::string(JOBS) + "/baritone_flat_top.toml --sample 5");
        // What is usual at the bench counts where a file states no doubt.
        CHECK(sure.code == 0);
        CHECK(has(sure.out, "5 variants"));
    }
}
