// Files that are whole or not there, on POSIX systems.
#include <cerrno>
#include <string>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#ifdef __linux__
#include <sys/vfs.h>
#endif
#include <unistd.h>

#include "destination.hpp"
#include "file.hpp"

namespace outside {

namespace {

std::error_code last_error() { return {errno, std::generic_category()}; }

/// All bytes into an open file, down to the disk.
/// @param name what an error calls the file
void write_bytes(int descriptor, std::string_view bytes, const std::filesystem::path& name) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0) {
            if (errno == EINTR) { continue; }
            throw cannot_write(name, last_error());
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    // Not every kind of file can be told to reach the disk; those have none.
    if (::fsync(descriptor) != 0 && errno != EINVAL && errno != EROFS) { throw cannot_write(name, last_error()); }
}

/// Whether a link only stands for a file that is open already, as /dev/stdout does in the end.
bool stands_for_open_file(const std::filesystem::path& link) {
#ifdef __linux__
    constexpr auto proc_file_system = 0x9fa0; // PROC_SUPER_MAGIC of <linux/magic.h>
    struct statfs of {};
    return ::statfs(link.has_parent_path() ? link.parent_path().c_str() : ".", &of) == 0 && of.f_type == proc_file_system;
#else
    (void)link;
    return false;
#endif
}

std::string as_open_file(int descriptor) { return "/proc/self/fd/" + std::to_string(descriptor); }

/// A file without a name, or -1 where the system or the folder's file system has no such thing.
int open_nameless(const std::filesystem::path& folder) {
#ifdef O_TMPFILE
    const int descriptor = ::open(folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, 0666);
    if (descriptor < 0) { return -1; }
    // It gets its name through here.
    if (::access(as_open_file(descriptor).c_str(), F_OK) == 0) { return descriptor; }
    ::close(descriptor);
#else
    (void)folder;
#endif
    return -1;
}
bool give_name(int descriptor, const std::filesystem::path& name) {
    return ::linkat(AT_FDCWD, as_open_file(descriptor).c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0;
}
unsigned long own_process() { return static_cast<unsigned long>(::getpid()); }

/// Whether an open file has the mode of another now and, where that is allowed, its owner.
bool take_owner(int descriptor, const file_owner& before) {
    struct stat now {};
    if (::fstat(descriptor, &now) != 0) { return false; }
    bool same = now.st_uid == before.user && now.st_gid == before.group;
    // Only the superuser may give a file away; whoever may not keeps the new one.
    if (!same) { same = ::fchown(descriptor, before.user, before.group) == 0; }
    return ::fchmod(descriptor, before.mode & (same ? 07777U : 0777U)) == 0;
}

} // namespace

destination destination_of(const std::filesystem::path& file) {
    destination d{file, {}, false};
    constexpr int most_links = 40; // as many as the kernel follows
    for (int links = 0; links <= most_links; ++links) {
        struct stat now {};
        if (::lstat(d.place.c_str(), &now) != 0) {
            if (errno == ENOENT) { return d; }
            throw cannot_write(file, last_error());
        }
        if (S_ISDIR(now.st_mode)) { throw cannot_write(file, std::make_error_code(std::errc::is_a_directory)); }
        if (!S_ISLNK(now.st_mode)) {
            d.before = {now.st_mode, now.st_uid, now.st_gid};
            d.through = !S_ISREG(now.st_mode);
            return d;
        }
        if (stands_for_open_file(d.place)) {
            d.through = true;
            return d;
        }
        std::error_code error;
        const auto target = std::filesystem::read_symlink(d.place, error);
        if (error) { throw cannot_write(file, error); }
        d.place = d.place.parent_path() / target;
    }
    throw cannot_write(file, std::make_error_code(std::errc::too_many_symbolic_link_levels));
}

void write_through(const std::filesystem::path& file, std::string_view bytes) {
    // What an open file holds already stays before what is written.
    const int descriptor = ::open(file.c_str(), O_WRONLY | O_APPEND | O_NOCTTY | O_CLOEXEC);
    if (descriptor < 0) { throw cannot_write(file, last_error()); }
    try {
        write_bytes(descriptor, bytes, file);
    } catch (...) {
        ::close(descriptor);
        throw;
    }
    if (::close(descriptor) != 0) { throw cannot_write(file, last_error()); }
}

void file_beside::fail() const { throw cannot_write(place_, last_error()); }

file_beside::file_beside(std::filesystem::path place, const file_owner* before, beside how) : place_(std::move(place)) {
    if (how == beside::nameless) { open_ = open_nameless(folder_of(place_)); }
    if (open_ < 0) { make_named(); }
    // Held as long as the file is open: this one is being written. Where no file can be held, none is taken for left over.
    if (name_.empty()) { (void)::flock(static_cast<int>(open_), LOCK_EX | LOCK_NB); }
    if (before && !take_owner(static_cast<int>(open_), *before)) { fail(); }
}
void file_beside::make_named() {
    for (int attempt = 0; attempt < 100; ++attempt) {
        const auto name = name_beside(place_, own_process(), attempt);
        const int descriptor = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (descriptor < 0) {
            if (errno != EEXIST) { break; }
            continue;
        }
        // Another program may have taken it for left over before it was held.
        struct stat now {};
        const bool held = ::flock(descriptor, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
        if (held && ::fstat(descriptor, &now) == 0 && now.st_nlink > 0) {
            open_ = descriptor;
            name_ = name;
            return;
        }
        ::close(descriptor);
        errno = EEXIST;
    }
    fail();
}
file_beside::file_beside(file_beside&& other) noexcept
    : place_(std::move(other.place_)), name_(std::exchange(other.name_, {})), open_(std::exchange(other.open_, -1)) {}
file_beside::~file_beside() {
    if (!name_.empty()) { ::unlink(name_.c_str()); }
    if (open_ >= 0) { ::close(static_cast<int>(open_)); }
}

void file_beside::fill(std::string_view bytes) {
    write_bytes(static_cast<int>(open_), bytes, place_);
    // A file system may report a full disk as late as when a descriptor is closed; the file itself stays open.
    const int twin = ::dup(static_cast<int>(open_));
    if (twin < 0 || ::close(twin) != 0) { fail(); }
}
void file_beside::replace() {
    // Nothing without a name can take a place that is taken.
    for (int attempt = 0; name_.empty(); ++attempt) {
        const auto name = name_beside(place_, own_process(), attempt);
        if (give_name(static_cast<int>(open_), name)) {
            name_ = name;
        } else if (errno != EEXIST || attempt == 100) {
            fail();
        }
    }
    if (::rename(name_.c_str(), place_.c_str()) != 0) { fail(); }
    name_.clear();
}
void file_beside::add() {
    if (name_.empty() ? !give_name(static_cast<int>(open_), place_) : ::link(name_.c_str(), place_.c_str()) != 0) {
        fail();
    }
    // The destructor takes the other name away.
}

void remove_leftovers(const std::filesystem::path& folder) noexcept {
    try {
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            if (!is_name_beside(entry.path().filename().string())) { continue; }
            struct stat found {};
            const int descriptor = ::open(entry.path().c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
            if (descriptor < 0) { continue; }
            const bool looked = ::fstat(descriptor, &found) == 0;
            const bool own = found.st_uid == ::geteuid() || ::geteuid() == 0;
            if (looked && S_ISREG(found.st_mode) && own && ::flock(descriptor, LOCK_EX | LOCK_NB) == 0) {
                ::unlink(entry.path().c_str());
            }
            ::close(descriptor);
        }
    } catch (const std::exception&) {
        // A folder that cannot be read keeps what is in it.
    }
}

} // namespace outside
