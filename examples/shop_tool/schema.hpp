#pragma once
/// @file
/// The tables of a shop's database, their version, and the way from older ones.
///
/// 1: instruments, their measurements as bare numbers in SI, the notes of their strings.
/// 2: measurements have their kind; the setups that follow from them, and their findings, are kept too.
///
/// Paths that the library has renamed since are brought up to date in a file of any version.

#include <optional>
#include <span>
#include <vector>

#include <tautline/job/former_names.hpp>

#include "../text/shown.hpp"
#include "kept_copy.hpp"

namespace shop {

inline constexpr std::int64_t schema_version = 2;
/// Marks the file as one of this program's ("Taut"), so that no other program's tables are touched.
inline constexpr std::int64_t application_id = 0x54617574;

inline std::int64_t pragma_value(const database& db, const std::string& name) {
    statement s(db, "PRAGMA " + name);
    return s.next() ? s.whole(0) : 0;
}

inline constexpr const char* tables_of_version_1 = R"(
    CREATE TABLE instruments (
        id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, pattern TEXT NOT NULL);
    CREATE TABLE measurements (
        instrument INTEGER NOT NULL REFERENCES instruments ON DELETE CASCADE, path TEXT NOT NULL, value REAL NOT NULL,
        PRIMARY KEY (instrument, path)) WITHOUT ROWID;
    CREATE TABLE notes (
        instrument INTEGER NOT NULL REFERENCES instruments ON DELETE CASCADE, string INTEGER NOT NULL, note TEXT NOT NULL,
        PRIMARY KEY (instrument, string)) WITHOUT ROWID;)";
/// An instrument without a row in `setups` could not be solved when it was last looked at.
inline constexpr const char* from_1_to_2 = R"(
    ALTER TABLE measurements ADD COLUMN kind TEXT NOT NULL DEFAULT 'not known';
    CREATE TABLE setups (
        instrument INTEGER PRIMARY KEY REFERENCES instruments ON DELETE CASCADE, made_by TEXT NOT NULL);
    CREATE TABLE results (
        instrument INTEGER NOT NULL REFERENCES setups ON DELETE CASCADE, path TEXT NOT NULL, value REAL NOT NULL,
        kind TEXT NOT NULL, PRIMARY KEY (instrument, path)) WITHOUT ROWID;
    CREATE TABLE findings (
        instrument INTEGER NOT NULL REFERENCES setups ON DELETE CASCADE, place INTEGER NOT NULL, severity TEXT NOT NULL,
        sentence TEXT NOT NULL, PRIMARY KEY (instrument, place)) WITHOUT ROWID;)";

/// The paths of kept measurements that have been renamed, each with its present name.
struct renamed_path {
    std::string before, now;
};
inline std::vector<renamed_path> renamed_paths(const database& db, std::span<const tautline::former_name> former) {
    std::vector<renamed_path> list;
    if (former.empty()) { return list; }
    statement paths(db, "SELECT DISTINCT path FROM measurements");
    while (paths.next()) {
        const std::string path = paths.text(0);
        if (std::string now = tautline::present_name(path, former); !now.empty()) { list.push_back({path, now}); }
    }
    return list;
}
/// Gives measurements their present names.
/// @throws database_error when an instrument has a measurement under both names, since nothing tells which is right
inline void rename_paths(database& db, const std::vector<renamed_path>& renamed) {
    for (const auto& [before, now] : renamed) {
        statement both(db, "SELECT name FROM instruments JOIN measurements ON instrument = id WHERE path = ? AND id IN "
                           "(SELECT instrument FROM measurements WHERE path = ?)");
        if (both.with(before, now).next()) {
            throw database_error("\"" + safe_text::shown(both.text(0)) + "\" has a measurement twice: as " +
                                 safe_text::shown(before) + " and as " + safe_text::shown(now) +
                                 ", which is its name now; nothing was changed");
        }
        statement(db, "UPDATE measurements SET path = ? WHERE path = ?").with(now, before).run();
    }
}

/// Makes the tables of a new file. In a file of an older program it brings tables and renamed paths up to date, and
/// `refill` then computes what the older tables did not hold. All this is one transaction, so a file never has parts of two
/// versions. A copy of the older file is kept.
/// @return the place of that copy; empty when nothing was older
template <class Refill>
std::string bring_up_to_date(database& db, std::span<const tautline::former_name> former, Refill&& refill) {
    if (pragma_value(db, "user_version") == schema_version && pragma_value(db, "application_id") == application_id &&
        renamed_paths(db, former).empty()) {
        return {};
    }
    transaction whole(db);
    std::int64_t version = pragma_value(db, "user_version");
    statement tables(db, "SELECT count(*) FROM sqlite_master");
    tables.next();
    const bool empty = tables.whole(0) == 0;
    if (!empty && pragma_value(db, "application_id") != application_id) {
        throw database_error("the file is a database of another program");
    }
    if (version > schema_version) {
        throw database_error("the file was written by a newer version of this program (its tables are version " +
                             std::to_string(version) + ", this one knows up to " + std::to_string(schema_version) + ")");
    }
    const auto renamed = empty ? std::vector<renamed_path>{} : renamed_paths(db, former);
    const bool older = !empty && (version < schema_version || !renamed.empty());
    std::optional<kept_copy> before;
    if (older) { before.emplace(db, version); }
    if (empty) {
        db.run("PRAGMA application_id = " + std::to_string(application_id));
        db.run(tables_of_version_1);
        version = 1;
    }
    if (version == 1) { db.run(from_1_to_2); }
    rename_paths(db, renamed);
    db.run("PRAGMA user_version = " + std::to_string(schema_version));
    if (older) { refill(); }
    whole.commit();
    return before ? before->keep() : std::string();
}

} // namespace shop
