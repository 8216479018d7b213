#pragma once
/// @file
/// SQLite in a few value types. An error is thrown as a sentence; changes that are not committed are undone.

#include <cstdint>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include <sqlite3.h>

namespace shop {

/// The database cannot be used; the text says why.
class database_error : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// An open database file.
class database {
public:
    enum class missing_file { is_made, is_an_error };

    database(const std::string& path, missing_file missing) {
        // "./" goes before a relative path, because SQLite gives some names, such as ":memory:", a meaning of their own.
        const std::string file = path.empty() || path.front() != '/' ? "./" + path : path;
        sqlite3* opened = nullptr;
        const int flags = SQLITE_OPEN_READWRITE | (missing == missing_file::is_made ? SQLITE_OPEN_CREATE : 0);
        const int code = sqlite3_open_v2(file.c_str(), &opened, flags, nullptr);
        handle_.reset(opened);
        require_ok(code);
        sqlite3_busy_timeout(handle_.get(), 10000);
        run("PRAGMA foreign_keys = ON");
        // A committed change must outlive the machine, not only this program.
        run("PRAGMA synchronous = FULL");
    }
    /// Runs statements that return nothing of interest.
    void run(const std::string& sql) { require_ok(sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr)); }

    /// Makes an empty file the copy of another, whole or not at all.
    void fill_from(const database& other) {
        sqlite3_backup* copying = sqlite3_backup_init(handle_.get(), "main", other.handle(), "main");
        if (!copying) { require_ok(sqlite3_errcode(handle_.get())); }
        const int copied = sqlite3_backup_step(copying, -1);
        require_ok(sqlite3_backup_finish(copying));
        if (copied != SQLITE_DONE) { require_ok(copied); } // `finish` does not report a lock as an error
    }

    [[nodiscard]] sqlite3* handle() const { return handle_.get(); }

    void require_ok(int code) const {
        if (code == SQLITE_OK || code == SQLITE_ROW || code == SQLITE_DONE) { return; }
        switch (code & 0xff) {
        case SQLITE_CANTOPEN:
            throw database_error("the file cannot be opened; `add` makes a new one in a folder that is there");
        case SQLITE_NOTADB:
            throw database_error("the file is not an SQLite database");
        case SQLITE_BUSY:
            throw database_error("another program is writing to it; try again when that has finished");
        case SQLITE_READONLY:
            throw database_error("the file, or its folder, may not be written to");
        case SQLITE_FULL:
            throw database_error("the disk is full; nothing was changed");
        case SQLITE_CORRUPT:
            throw database_error("the file is damaged; take a copy of it and go back to your last backup");
        default:
            throw database_error(std::string("SQLite says: ") + sqlite3_errmsg(handle_.get()));
        }
    }

private:
    struct closer {
        void operator()(sqlite3* h) const { sqlite3_close(h); }
    };
    std::unique_ptr<sqlite3, closer> handle_;
};

/// A prepared statement: values in with `with`, rows out with `next`.
class statement {
public:
    statement(const database& db, std::string_view sql) : db_(db) {
        sqlite3_stmt* prepared = nullptr;
        db.require_ok(sqlite3_prepare_v2(db.handle(), sql.data(), static_cast<int>(sql.size()), &prepared, nullptr));
        handle_.reset(prepared);
    }
    /// Starts over with these values for the statement's question marks.
    template <class... Values>
    statement& with(const Values&... values) {
        sqlite3_reset(handle_.get());
        int place = 0;
        (db_.require_ok(bind(++place, values)), ...);
        return *this;
    }
    /// Goes to the next row; false when there is none.
    bool next() {
        const int code = sqlite3_step(handle_.get());
        db_.require_ok(code);
        return code == SQLITE_ROW;
    }
    /// Runs a statement that returns no rows.
    void run() {
        while (next()) {}
    }
    [[nodiscard]] std::int64_t whole(int column) const { return sqlite3_column_int64(handle_.get(), column); }
    [[nodiscard]] double number(int column) const { return sqlite3_column_double(handle_.get(), column); }
    [[nodiscard]] std::string text(int column) const {
        const unsigned char* start = sqlite3_column_text(handle_.get(), column);
        const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_.get(), column));
        return start ? std::string(reinterpret_cast<const char*>(start), size) : std::string();
    }

private:
    int bind(int place, double v) { return sqlite3_bind_double(handle_.get(), place, v); }
    int bind(int place, std::int64_t v) { return sqlite3_bind_int64(handle_.get(), place, v); }
    int bind(int place, std::string_view v) {
        return sqlite3_bind_text64(handle_.get(), place, v.data(), v.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    }
    struct closer {
        void operator()(sqlite3_stmt* h) const { sqlite3_finalize(h); }
    };
    const database& db_;
    std::unique_ptr<sqlite3_stmt, closer> handle_;
};

/// A transaction: either everything up to `commit` happens, or nothing. A writing transaction locks the file at once, so
/// what it reads cannot change before it writes. A reading transaction sees the file as it was at one moment.
class transaction {
public:
    enum class will { write, only_read };
    explicit transaction(database& db, will w = will::write) : db_(db) {
        db_.run(w == will::write ? "BEGIN IMMEDIATE" : "BEGIN");
    }
    transaction(const transaction&) = delete;
    transaction& operator=(const transaction&) = delete;
    void commit() {
        db_.run("COMMIT");
        open_ = false;
    }
    ~transaction() {
        if (open_) { sqlite3_exec(db_.handle(), "ROLLBACK", nullptr, nullptr, nullptr); }
    }

private:
    database& db_;
    bool open_ = true;
};

} // namespace shop
