#pragma once
/// @file
/// A copy of a database file, kept beside it before its tables are changed.

#include <cerrno>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "database.hpp"

namespace shop {

/// A complete copy of a database, or none. It is removed again unless it is kept.
class kept_copy {
public:
    /// @param db locked for writing, so that nobody else changes or copies the file meanwhile
    /// @param version of its tables; the copy is named after it: "shop.db.version-1", and ".2" or more behind that where a
    /// copy of that name is there already
    /// @throws database_error
    kept_copy(const database& db, std::int64_t version) {
        const std::string file = sqlite3_db_filename(db.handle(), "main"), part = file + ".copying";
        // A killed program may have left part of a copy.
        (void)::unlink(part.c_str());
        (void)::unlink((part + "-journal").c_str());
        copy(file, part);
        for (int count = 1; path_.empty(); ++count) {
            std::string name = file + ".version-" + std::to_string(version);
            if (count > 1) { name += "." + std::to_string(count); }
            // An existing file is never overwritten.
            if (::link(part.c_str(), name.c_str()) == 0) {
                path_ = name;
            } else if (errno != EEXIST || count == 1000) {
                const int why = errno;
                (void)::unlink(part.c_str());
                cannot_copy(why);
            }
        }
        (void)::unlink(part.c_str());
    }
    kept_copy(const kept_copy&) = delete;
    kept_copy& operator=(const kept_copy&) = delete;
    ~kept_copy() {
        if (!kept_) { (void)::unlink(path_.c_str()); }
    }
    /// Keeps the copy. Returns its place.
    const std::string& keep() {
        kept_ = true;
        return path_;
    }

private:
    [[noreturn]] static void cannot_copy(int why) {
        throw database_error("no copy of the file as it is can be made (" + std::generic_category().message(why) +
                             "); nothing was changed");
    }
    static void copy(const std::string& file, const std::string& part) {
        struct stat before {};
        if (::stat(file.c_str(), &before) != 0) { cannot_copy(errno); }
        // The copy gets the file's permissions: whoever may not read the file may not read its copy.
        const int made = ::open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, before.st_mode & 0777U);
        if (made < 0) { cannot_copy(errno); }
        (void)::fchmod(made, before.st_mode & 0777U);
        ::close(made);
        try {
            // SQLite cannot copy from a connection that is about to write. A second connection may read until the write
            // begins.
            const database reading(file, database::missing_file::is_an_error);
            database(part, database::missing_file::is_an_error).fill_from(reading);
        } catch (...) {
            (void)::unlink(part.c_str());
            throw;
        }
    }
    std::string path_{};
    bool kept_ = false;
};

} // namespace shop
