#pragma once
/// @file
/// The shop's instruments, kept as the numbers of a described model, with the setups that follow from them.

#include <map>
#include <optional>
#include <vector>

#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/version.hpp>

#include "measurements.hpp"
#include "schema.hpp"

namespace shop {

/// An instrument by its row.
struct entry {
    std::int64_t id = 0;
    std::string name;
    std::string pattern;
};

/// A kept setup: results in SI by their paths, and what was found.
struct kept_setup {
    std::map<std::string, double, std::less<>> results;
    struct found {
        std::string severity, sentence;
    };
    std::vector<found> findings;
    std::string made_by;
};

/// Instruments in a database file.
class instruments {
public:
    /// @param former paths renamed since the file was written
    instruments(const std::string& file, database::missing_file missing, std::span<const former_name> former = former_names)
        : db_(file, missing), former_(former) {
        kept_copy_ = bring_up_to_date(db_, former, [&] {
            for (const entry& e : all()) { keep(e, load(e)); }
        });
    }
    /// Where the copy of the older file is kept; empty when the file was up to date.
    [[nodiscard]] const std::string& kept_copy_of_old_file() const { return kept_copy_; }
    [[nodiscard]] database& file() { return db_; }
    /// The renamed paths.
    [[nodiscard]] std::span<const former_name> former() const { return former_; }

    [[nodiscard]] std::vector<entry> all() const {
        statement s(db_, "SELECT id, name, pattern FROM instruments ORDER BY name");
        std::vector<entry> found;
        while (s.next()) { found.push_back({s.whole(0), s.text(1), s.text(2)}); }
        return found;
    }
    [[nodiscard]] entry find(std::string_view name) const {
        statement s(db_, "SELECT id, name, pattern FROM instruments WHERE name = ?");
        if (!s.with(name).next()) {
            throw wrong_input("There is no instrument \"" + shown(name) + "\"; `list` lists them.");
        }
        return {s.whole(0), s.text(1), s.text(2)};
    }
    /// Inside a transaction.
    entry add(std::string_view name, const ready_made::named& kind) {
        if (name.empty() || name.size() > 200) { throw wrong_input("A name has 1 to 200 letters."); }
        statement taken(db_, "SELECT 1 FROM instruments WHERE name = ?");
        if (taken.with(name).next()) { throw wrong_input("There is an instrument \"" + shown(name) + "\" already."); }
        statement(db_, "INSERT INTO instruments (name, pattern) VALUES (?, ?)").with(name, kind.name).run();
        const entry e = find(name);
        keep(e, string_up(kind.make()));
        return e;
    }
    void remove(const entry& e) { statement(db_, "DELETE FROM instruments WHERE id = ?").with(e.id).run(); }

    /// The model as it was measured last.
    [[nodiscard]] strung_instrument load(const entry& e) const {
        const ready_made::named* kind = ready_made::find_instrument(e.pattern);
        if (!kind) {
            throw database_error("\"" + shown(e.name) + "\" is of a kind that is not known here: " + shown(e.pattern));
        }
        strung_instrument model = string_up(kind->make());
        auto numbers = numbers_of("measurements", e);
        for_each_leaf(model, [&](std::string_view path, auto& leaf) {
            if (const auto at = numbers.find(path); at != numbers.end()) {
                set_number(leaf, at->second);
                numbers.erase(at);
            }
        });
        if (!numbers.empty()) {
            throw database_error("\"" + shown(e.name) +
                                 "\" has a measurement that is not known here: " + shown(numbers.begin()->first));
        }
        statement notes(db_, "SELECT string, note FROM notes WHERE instrument = ?");
        notes.with(e.id);
        while (notes.next()) {
            const auto place = notes.whole(0);
            if (place < 0 || place >= std::ssize(model.stringing.strings)) {
                throw database_error("\"" + shown(e.name) + "\" has a note for a string that it has not");
            }
            model.stringing.strings[static_cast<std::size_t>(place)].pitch = parse_note(notes.text(1));
        }
        return model;
    }
    /// Keeps a model and the setup that follows from it, inside a transaction. A model that cannot be solved is kept
    /// without a setup; `solve` tells again what is wrong with it.
    void keep(const entry& e, const strung_instrument& model) {
        for (const char* table : {"measurements", "notes", "setups"}) {
            statement(db_, std::string("DELETE FROM ") + table + " WHERE instrument = ?").with(e.id).run();
        }
        keep_numbers("measurements", e, model);
        statement note(db_, "INSERT INTO notes (instrument, string, note) VALUES (?, ?, ?)");
        for (std::size_t k = 0; k < model.stringing.strings.size(); ++k) {
            note.with(e.id, static_cast<std::int64_t>(k), name_of(model.stringing.strings[k].pitch)).run();
        }
        std::optional<setup> solved;
        try {
            solved = solve(model);
        } catch (const invalid_input&) { return; }
        statement(db_, "INSERT INTO setups (instrument, made_by) VALUES (?, ?)").with(e.id, version_text).run();
        keep_numbers("results", e, *solved);
        statement finding(db_, "INSERT INTO findings (instrument, place, severity, sentence) VALUES (?, ?, ?, ?)");
        std::int64_t place = 0;
        for (const auto& f : solved->findings) {
            finding.with(e.id, place++, name_of(f.severity), sentence_of(f, solved->names)).run();
        }
    }
    /// The kept setup; nothing for an instrument that could not be solved.
    [[nodiscard]] std::optional<kept_setup> setup_of(const entry& e) const {
        statement made(db_, "SELECT made_by FROM setups WHERE instrument = ?");
        if (!made.with(e.id).next()) { return std::nullopt; }
        kept_setup kept{numbers_of("results", e), {}, made.text(0)};
        statement found(db_, "SELECT severity, sentence FROM findings WHERE instrument = ? ORDER BY place");
        found.with(e.id);
        while (found.next()) { kept.findings.push_back({found.text(0), found.text(1)}); }
        return kept;
    }
    /// Whether the kept setup equals, to the last bit, what the measurements give today.
    [[nodiscard]] bool agrees(const entry& e) const {
        const strung_instrument model = load(e);
        std::optional<setup> solved;
        try {
            solved = solve(model);
        } catch (const invalid_input&) {}
        const auto kept = setup_of(e);
        if (!solved || !kept) { return !solved && !kept; }
        std::size_t same = 0, count = 0;
        for_each_leaf(*solved, [&](std::string_view path, const auto& leaf) {
            if (!any_of(leaf).is_number()) { return; }
            const auto at = kept->results.find(path);
            ++count;
            same += at != kept->results.end() && at->second == number_of(leaf) ? 1 : 0;
        });
        return same == count && count == kept->results.size() && kept->findings.size() == solved->findings.size();
    }

private:
    [[nodiscard]] std::map<std::string, double, std::less<>> numbers_of(const std::string& table, const entry& e) const {
        statement s(db_, "SELECT path, value FROM " + table + " WHERE instrument = ?");
        s.with(e.id);
        std::map<std::string, double, std::less<>> numbers;
        while (s.next()) { numbers.emplace(s.text(0), s.number(1)); }
        return numbers;
    }
    template <class Model>
    void keep_numbers(const std::string& table, const entry& e, Model& model) {
        statement s(db_, "INSERT INTO " + table + " (instrument, path, value, kind) VALUES (?, ?, ?, ?)");
        for_each_leaf(model, [&](std::string_view path, const auto& leaf) {
            // A fret between the head and a string's own nut has no number.
            if (any_of(leaf).is_number()) { s.with(e.id, path, number_of(leaf), kind_name_of(leaf)).run(); }
        });
    }
    database db_;
    std::span<const former_name> former_;
    std::string kept_copy_{};
};

} // namespace shop
