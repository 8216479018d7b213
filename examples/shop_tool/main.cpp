/// @file
/// shop_tool keeps a shop's instruments in an SQLite file, with their measurements and the setups that follow from them.
///
/// Exit codes: 0 done; 1 the database or the output could not be used; 2 the command or a measurement is wrong.

#include <iostream>
#include <set>

#include <tautline/core/to_text.hpp>

#include "../text/printed.hpp"
#include "importing.hpp"
#include "sheets.hpp"

namespace {

using namespace shop;

constexpr int not_done = 1, wrong = 2;

constexpr const char* usage = R"(usage: shop_tool DATABASE COMMAND ...
  add NAME PATTERN               a new instrument that starts as a ready-made one; makes the database
  list                           the instruments
  show NAME                      its measurements
  set NAME PATH VALUE ...        measures: set "No 12" board.thickness "6.1 mm" "string 6.pitch" D2
  import FILE                    many measurements, all of them or none: lines of NAME, PATH and VALUE with tabs between,
                                 or what export wrote
  sheet NAME                     its setup
  export [NAME ...]              all numbers as CSV
  remove NAME
  check                          whether every kept setup is what its measurements give
  refresh                        solves all again, after the library has changed
)";

/// The names of the ready-made instruments.
std::string patterns() {
    std::string names;
    for (const auto& one : ready_made::all()) { names += (names.empty() ? "" : ", ") + std::string(one.name); }
    return names;
}
std::string help() { return usage + ("Patterns: " + patterns() + "\n"); }

using words = std::vector<std::string>;

/// Keeps a measured model if it can be solved, and throws what is wrong with it otherwise.
void measure(instruments& shop, const entry& e, const strung_instrument& model) {
    (void)solve(model);
    shop.keep(e, model);
}

void set(instruments& shop, const words& w) {
    const entry e = shop.find(w[0]);
    strung_instrument model = shop.load(e);
    for (std::size_t i = 1; i < w.size(); i += 2) { change(model, w[i], w[i + 1], shop.former()); }
    measure(shop, e, model);
}

void import(instruments& shop, const std::string& path) {
    try {
        for (const auto& [name, model] : measured_in(lines(path), shop)) {
            try {
                measure(shop, shop.find(name), model);
            } catch (const invalid_input& e) { throw wrong_input(shown(name) + ": " + e.what()); }
        }
    } catch (const wrong_input& e) { throw wrong_input(std::string(e.what()) + "\nNothing was changed."); }
}

std::string sheet_of(const instruments& shop, const std::string& name) {
    const entry e = shop.find(name);
    const strung_instrument model = shop.load(e);
    if (const auto kept = shop.setup_of(e)) { return sheet(e, model, *kept); }
    (void)solve(model); // says what is wrong
    throw database_error("\"" + shown(name) + "\" has no setup yet; `refresh` makes it");
}

std::string show(const instruments& shop, const std::string& name) {
    strung_instrument model = shop.load(shop.find(name));
    std::string out;
    const string_names names = names_of(model.instrument, model.stringing);
    for (std::size_t k = 0; k < model.stringing.strings.size(); ++k) {
        out += "strings[" + std::to_string(k) + "].pitch = " + name_of(model.stringing.strings[k].pitch) + "    # " +
               names.name(k) + "\n";
    }
    for_each_leaf(model, [&](std::string_view path, const auto& leaf) {
        const auto string = string_of_path(path);
        out += std::string(path) + " = " + to_text(any_of(leaf)) +
               (string ? "    # " + names.name(*string) : std::string()) + "\n";
    });
    return out;
}

/// Runs one command. Returns everything it prints, or throws and prints nothing.
std::string run(const std::string& file, const std::string& command, const words& w) {
    const auto wants = [&](bool fits) {
        if (!fits) { throw wrong_input(help()); }
    };
    static const std::set<std::string> known{"add",   "list",   "show",   "set",   "import",
                                             "sheet", "export", "remove", "check", "refresh"};
    wants(known.contains(command));
    if (command == "set") {
        wants(w.size() >= 3 && w.size() % 2 == 1);
    } else if (command == "add") {
        wants(w.size() == 2);
    } else if (command != "export") {
        wants(w.size() == (command == "list" || command == "check" || command == "refresh" ? 0 : 1));
    }
    const ready_made::named* kind = command == "add" ? ready_made::find_instrument(w[1]) : nullptr;
    if (command == "add" && !kind) {
        throw wrong_input("There is no pattern \"" + shown(w[1]) + "\": " + patterns() + ".");
    }

    instruments shop(file, command == "add" ? database::missing_file::is_made : database::missing_file::is_an_error);
    if (!shop.kept_copy_of_old_file().empty()) {
        std::cerr << "shop_tool: " << shown(file) << ": its tables were brought up to date; the file as it was is kept as "
                  << shown(shop.kept_copy_of_old_file()) << "\n";
    }
    static const std::set<std::string> writing{"add", "set", "import", "remove", "refresh"};
    transaction whole(shop.file(), writing.contains(command) ? transaction::will::write : transaction::will::only_read);
    std::string out;
    if (command == "add") {
        shop.add(w[0], *kind);
    } else if (command == "list") {
        for (const entry& e : shop.all()) {
            out += shown(e.name) + "  " + shown(e.pattern) + (shop.setup_of(e) ? "" : "  cannot be solved") + "\n";
        }
    } else if (command == "show") {
        out = show(shop, w[0]);
    } else if (command == "set") {
        set(shop, w);
    } else if (command == "import") {
        import(shop, w[0]);
    } else if (command == "sheet") {
        out = sheet_of(shop, w[0]);
    } else if (command == "export") {
        std::vector<entry> chosen = w.empty() ? shop.all() : std::vector<entry>{};
        for (const std::string& name : w) { chosen.push_back(shop.find(name)); }
        out = std::string(csv_head) + "\r\n";
        for (const entry& e : chosen) { out += csv_lines(shop.file(), e); }
    } else if (command == "remove") {
        shop.remove(shop.find(w[0]));
    } else if (command == "check") {
        std::string differ;
        for (const entry& e : shop.all()) { differ += shop.agrees(e) ? "" : " \"" + shown(e.name) + "\""; }
        if (!differ.empty()) { throw database_error("these setups are not what their measurements give:" + differ); }
        out = std::to_string(shop.all().size()) + " setups are what their measurements give\n";
    } else {
        for (const entry& e : shop.all()) { shop.keep(e, shop.load(e)); }
    }
    whole.commit();
    return out;
}

int print(const std::string& text) { return safe_text::printed(text, "shop_tool"); }

} // namespace

int main(int count, char** arguments) {
    const words all(arguments + 1, arguments + count);
    try {
        if (all.size() == 1 && (all[0] == "--help" || all[0] == "-h")) { return print(help()); }
        if (all.size() < 2) { throw wrong_input(help()); }
        return print(run(all[0], all[1], words(all.begin() + 2, all.end())));
    } catch (const shop::database_error& e) {
        std::cerr << "shop_tool: " << shop::shown(all[0]) << ": " << e.what() << "\n";
        return not_done;
    } catch (const std::invalid_argument& e) { // tautline::invalid_input: sentences of the library
        std::cerr << "shop_tool: " << e.what() << "\n";
    } catch (const shop::wrong_input& e) { std::cerr << "shop_tool: " << e.what() << "\n"; }
    return wrong;
}
