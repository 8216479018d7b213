#include "command_line.hpp"

#include <charconv>

#include <CLI/CLI.hpp>

#include "materials.hpp"
#include "mistakes.hpp"

namespace bench_sheet {

namespace {

/// What a run writes: the sheet unless an option asks for something else.
enum mode : unsigned {
    the_sheet = 1U << 0U,
    explanation = 1U << 1U,
    list = 1U << 2U,
    json = 1U << 3U,
    csv = 1U << 4U,
    drawings = 1U << 5U,
    sweep = 1U << 6U,
    sample = 1U << 7U,
    check = 1U << 8U,
    start = 1U << 9U,
    keys = 1U << 10U,
    page = 1U << 11U,
    materials = 1U << 12U,
};
constexpr unsigned any_mode = (1U << 13U) - 1, reads_a_job = any_mode & ~unsigned{start | keys | materials};

/// An option: the values after it, the mode that it asks for, and the modes that it goes with.
struct option_row {
    const char* name;
    const char* help;
    unsigned goes_with;
    unsigned asks_for = 0;     ///< a mode; 0 if it only adds to one
    int values = 0;            ///< the number of values after it
    const char* value = "";    ///< their name in the help
    const char* expected = ""; ///< their description in a mistake
    bool again = false;        ///< may be given more than once
};
constexpr unsigned in_units = the_sheet | explanation | list | drawings | sweep | sample | page;
constexpr option_row options[] = {
    {"--units", "metric, imperial or both", in_units, 0, 1, "NAME", "metric, imperial or both"},
    {"--fine", "all decimals of numbers that are worked to, not steps of a bench", the_sheet | drawings | page},
    {"--detail", "every string over every fret, forces at every end", the_sheet},
    {"--as-read", "only compare the readings: adjust no number by them", reads_a_job & ~unsigned{check}},
    {"--steps", "every number of every step", the_sheet},
    {"--changes", "every result that the plan changes", the_sheet},
    {"--budget", "the part of every measurement in every doubt", the_sheet},
    {"--explain", "explain a number: its formula, its source, what moves it", explanation, explanation, 1, "NAME",
     "the name of a number; --list names them all"},
    {"--list", "the names of all numbers that can be explained", list, list},
    {"--json", "the numbers for programs (docs/tautline-sheet.schema.json)", json, json},
    {"--csv", "every result for a spreadsheet; with variants, one row for each", csv | sweep | sample, csv},
    {"--drawings", "draw into this folder: side view, buzz map, full-size templates", drawings, drawings, 1, "FOLDER",
     "the name of a folder"},
    {"--page", "write the sheet with its drawings as one page (HTML), for screen and paper", page, page, 1, "FILE",
     "the name of a file"},
    {"--paper", "a4 or letter", drawings, 0, 1, "NAME", "a4 or letter"},
    {"--vary", "an input in equal steps: NAME FROM TO COUNT; may be given again", sweep, sweep, 4, "...",
     "the name of an input, from what, to what, and how many values", true},
    {"--through", "an input through values: NAME \"V, V, V\"; may be given again", sweep, sweep, 2, "...",
     "the name of an input and its values with commas between", true},
    {"--sample", "a random sample: this many variants of what the file doubts", sample, sample, 1, "COUNT",
     "a whole number of variants, 2 to 2000000"},
    {"--seed", "the start of the random numbers; the same one gives the same sample", sample, 0, 1, "N",
     "a whole number, 0 or more"},
    {"--part", "one part of the rows, such as 3/8 of eight parts, as --csv writes them", sweep | sample, 0, 1, "K/N",
     "a part and how many there are, 1/8 to 8/8 for eight parts"},
    {"--table", "a result to table (see --list); may be given again", sweep | sample, 0, 1, "NAME",
     "the name of a result, such as relief.gap", true},
    {"--out", "write to this file instead", any_mode & ~unsigned{drawings | page}, 0, 1, "FILE", "the name of a file"},
    {"--check", "say what is wrong with the file, and nothing else", check, check},
    {"--new",
     "print a commented job file to begin with: pinned, floating, solid, slotted_nylon, zero_fret, banjo or fanned_bass",
     start, start, 1, "KIND", "pinned, floating, solid, slotted_nylon, zero_fret, banjo or fanned_bass"},
    {"--keys", "print what each key of a job file means", keys, keys},
    {"--materials", "print what strings are made of: density, modulus, strength, sources", materials, materials},
};
static_assert(tl::most_variants == 2'000'000, "as --sample says");

const option_row* find_option(std::string_view name) {
    for (const option_row& o : options) {
        if (o.name == name) { return &o; }
    }
    return nullptr;
}

/// "the sheet, --list or --json": the options that ask for some modes. Only those that `given` accepts are named.
template <class Given>
std::string words_for(unsigned modes, const char* last, Given&& given) {
    std::vector<std::string> each;
    if ((modes & the_sheet) != 0) { each.emplace_back("the sheet"); }
    for (const option_row& o : options) {
        if ((o.asks_for & modes) != 0 && given(o.name)) { each.emplace_back(o.name); }
    }
    std::string words;
    for (std::size_t i = 0; i < each.size(); ++i) { words += (i == 0 ? "" : i + 1 == each.size() ? last : ", ") + each[i]; }
    return words;
}

/// The reader of a command line: it keeps the options as given and collects the mistakes.
class reading {
public:
    reading() {
        app.allow_extras();
        app.allow_windows_style_options(false); // a slash begins a path on every system
        job_ = app.add_option("job", path, "the job file (TOML; see docs/job_file.md and examples/jobs)");
        for (const option_row& o : options) {
            if (o.values == 0) {
                app.add_flag(o.name, o.help)->disable_flag_override();
                continue;
            }
            app.add_option(o.name, o.help)
                ->type_size(o.values)
                ->expected(1)
                ->allow_extra_args(false) // otherwise it takes the job file after it as another value
                ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
                ->option_text(o.value);
        }
    }
    [[nodiscard]] bool has(const char* name) const { return app.count(name) > 0; }
    /// All values of an option, in the order of the command line.
    [[nodiscard]] std::vector<std::string> all(const char* name) const { return app.get_option(name)->results(); }
    /// The only value of an option, or `otherwise` if the option is not given.
    [[nodiscard]] std::string one(const char* name, const char* otherwise = "") const {
        return has(name) ? all(name).front() : otherwise;
    }
    /// The meaning of an option's only value, or `otherwise` if the option is not given.
    template <class T>
    T one_of(const char* name, std::initializer_list<std::pair<std::string_view, T>> known, T otherwise) {
        for (const auto& k : known) {
            if (has(name) && all(name).front() == k.first) { return k.second; }
        }
        if (has(name)) { wrong(name, all(name).front()); }
        return otherwise;
    }
    template <class N>
    N whole_number(const char* name, N least, N most, N otherwise) {
        if (!has(name)) { return otherwise; }
        const std::string text = all(name).front();
        N v = 0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), v);
        if (error != std::errc() || end != text.data() + text.size() || v < least || v > most) { wrong(name, text); }
        return v;
    }
    /// Notes mistakes in single options: a value is empty, another option stands in its place, or the option is repeated.
    void check_values() {
        for (const option_row& o : options) {
            const auto values = o.values > 0 ? all(o.name) : std::vector<std::string>();
            const auto bad = std::find_if(values.begin(), values.end(),
                                          [](const std::string& v) { return v.empty() || find_option(v); });
            const auto times = o.values > 0 ? values.size() / static_cast<std::size_t>(o.values) : 1;
            if (bad != values.end()) {
                wrong(o.name, *bad);
            } else if (times > 1 && !o.again) {
                mistakes.push_back(std::string(o.name) + " is given " + std::to_string(times) + " times; expected once");
            }
        }
        if (job_->count() > 0 && path.empty()) { mistakes.emplace_back("the job file is \"\"; expected its name"); }
    }
    /// Notes mistakes between options: two modes are asked for, or an option has no effect on the mode.
    void check_together();
    /// Notes mistakes in the other words: an unknown option, or a second job file.
    void check_extras();
    [[nodiscard]] request request_of();

    CLI::App app{"Prints the bench sheet of a job: as found, as planned, and the steps between.\n"
                 "Numbers are estimates; where a failure would hurt someone, a qualified repairer decides.",
                 "bench_sheet"};
    std::string path{}; ///< of the job file
    std::vector<std::string> mistakes{};

private:
    void wrong(const char* name, const std::string& value) {
        mistakes.push_back(std::string(name) + " is \"" + shown(value) + "\"; expected " + find_option(name)->expected);
    }

    CLI::Option* job_ = nullptr;
};

void reading::check_together() {
    const bool has_path = job_->count() > 0;
    unsigned modes = 0;
    for (const option_row& o : options) {
        if (has(o.name)) { modes |= o.asks_for; }
    }
    // --csv with variants is one mode, not two.
    if ((modes & (sweep | sample)) != 0) { modes &= ~unsigned{csv}; }
    if (modes == 0) { modes = the_sheet; }
    const std::string asked = words_for(modes, " and ", [&](const char* name) { return has(name); });
    if ((modes & (modes - 1)) != 0) {
        mistakes.push_back(asked + " are given together; expected one of them");
        return;
    }
    for (const option_row& o : options) {
        if (has(o.name) && (o.goes_with & modes) == 0) {
            mistakes.push_back(std::string(o.name) + " is given with " + asked + "; expected only with " +
                               words_for(o.goes_with, " or ", [](const char*) { return true; }));
        }
    }
    if ((modes & reads_a_job) == 0 && has_path) {
        mistakes.push_back("\"" + shown(path) + "\" is given with " + asked + "; expected no job file, for none is read" +
                           (modes == start ? " (--out FILE says where the new one goes)" : ""));
    }
    if ((modes & reads_a_job) != 0 && !has_path) { mistakes.emplace_back("the job file is missing; expected its name"); }
}

request reading::request_of() {
    request r;
    r.path = path;
    r.sheet.fine = has("--fine");
    r.sheet.detail = has("--detail");
    r.as_read = has("--as-read");
    r.sheet.steps = has("--steps");
    r.sheet.changes = has("--changes");
    r.sheet.budget = has("--budget");
    r.explain = one("--explain");
    r.list = has("--list");
    r.json = has("--json");
    r.csv = has("--csv") || has("--part"); // parts are joined line by line
    r.drawings = one("--drawings");
    r.out = one("--out");
    r.page = one("--page");
    r.check = has("--check");
    r.document = has("--keys") ? key_document : has("--materials") ? materials_document : nullptr;
    r.sweep.ranges = all("--vary");
    r.sweep.lists = all("--through");
    r.sweep.results = all("--table");
    r.sheet.units = one_of<measures>(
        "--units", {{"metric", measures::metric}, {"imperial", measures::imperial}, {"both", measures::both}}, {});
    if (r.csv && r.sheet.units == measures::both) {
        mistakes.emplace_back("--units is \"both\"; expected metric or imperial with --csv and --part: one number a cell");
    }
    for (const starting_kind& k : starting_kinds()) { r.start = has("--new") && one("--new") == k.name ? &k : r.start; }
    if (has("--new") && !r.start) { wrong("--new", one("--new")); }
    r.paper = one_of<drawing::paper>("--paper", {{"a4", drawing::paper::a4}, {"letter", drawing::paper::letter}}, {});
    r.sweep.sample = whole_number<std::size_t>("--sample", 2, tl::most_variants, 0);
    r.sweep.part = tl::find_part(one("--part"));
    if (has("--part") && !r.sweep.part) { wrong("--part", one("--part")); }
    r.sweep.seed = whole_number<std::uint64_t>("--seed", 0, UINT64_MAX, 1);
    return r;
}

void reading::check_extras() {
    std::vector<std::string_view> names{"help"};
    for (const option_row& o : options) { names.push_back(std::string_view(o.name).substr(2)); }
    for (const std::string& extra : app.remaining()) {
        if (extra == "--") { continue; } // the words after it are no options
        const bool option = extra.size() > 1 && extra[0] == '-';
        if (!option && mistakes.empty()) {
            mistakes.push_back("\"" + shown(extra) + "\" is one name too many; expected one job file");
        }
        // A word after an unknown option may be its value, so it is not reported.
        if (!option) { break; }
        const std::string_view word = std::string_view(extra).substr(extra.find_first_not_of('-') % extra.size());
        const std::string_view close =
            word.size() < 3 ? std::string_view() : nearest(word.substr(0, word.find('=')), names);
        mistakes.push_back("unknown option \"" + shown(extra) + "\"" +
                           (close.empty() ? "" : "; did you mean \"--" + std::string(close) + "\"?"));
    }
}

} // namespace

read_command read_command_line(int argc, const char* const* argv) {
    reading line;
    try {
        line.app.parse(argc, argv);
        line.check_extras();
    } catch (const CLI::CallForHelp&) { return {{}, line.app.help(), {}}; } catch (const CLI::ParseError& e) {
        // The parser names the option and counts its values. The table knows which values are expected.
        const std::string said = shown(e.what()), word = said.substr(0, said.find_first_of(": "));
        const option_row* o = find_option(word) ? find_option(word) : find_option("--" + word);
        line.mistakes.push_back(!o              ? said
                                : o->values > 0 ? std::string(o->name) + " lacks what follows it; expected " + o->expected
                                                : std::string(o->name) + " is given a value; expected it alone");
    }
    read_command read;
    if (line.mistakes.empty()) {
        line.check_values();
        line.check_together();
        read.asked = line.request_of();
    }
    read.mistakes = std::move(line.mistakes);
    return read;
}

} // namespace bench_sheet
