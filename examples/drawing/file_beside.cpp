#include "file_beside.hpp"

#include <array>
#include <cerrno>
#include <string>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include "file.hpp"

namespace drawing {

namespace {

constexpr std::string_view mark = ".new-tautline-";
constexpr std::size_t longest_name = 255; // of a file, on all common file systems

std::error_code what_failed() { return {errno, std::generic_category()}; }

std::filesystem::path folder_of(const std::filesystem::path& place) {
    return place.has_parent_path() ? place.parent_path() : std::filesystem::path(".");
}
/// A name beside a place: that of the place as far as there is room, the mark, the process and a number.
std::filesystem::path name_beside(const std::filesystem::path& place, int attempt) {
    const std::string end = std::string(mark) + std::to_string(::getpid()) + "-" + std::to_string(attempt);
    return folder_of(place) / (place.filename().string().substr(0, longest_name - end.size()) + end);
}
bool is_name_beside(std::string_view name) {
    const std::size_t at = name.rfind(mark);
    if (at == std::string_view::npos || at == 0) { return false; }
    const std::string_view numbers = name.substr(at + mark.size());
    const std::size_t dash = numbers.find('-');
    return dash != std::string_view::npos && dash > 0 && dash + 1 < numbers.size() &&
           numbers.find_first_not_of("0123456789-") == std::string_view::npos &&
           numbers.find('-', dash + 1) == std::string_view::npos;
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

} // namespace

void file_beside::fail() const { throw cannot_write(place_, what_failed()); }

file_beside::file_beside(std::filesystem::path place, const struct stat* before, beside how) : place_(std::move(place)) {
    if (how == beside::nameless) { descriptor_ = open_nameless(folder_of(place_)); }
    if (descriptor_ < 0) { make_named(); }
    // Held as long as the file is open: this one is being written. Where no file can be held, none is taken for left over.
    if (name_.empty()) { (void)::flock(descriptor_, LOCK_EX | LOCK_NB); }
    if (before) { take_mode_of(*before); }
}
void file_beside::make_named() {
    for (int attempt = 0; attempt < 100; ++attempt) {
        const auto name = name_beside(place_, attempt);
        descriptor_ = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (descriptor_ < 0) {
            if (errno != EEXIST) { break; }
            continue;
        }
        // Another program may have taken it for left over before it was held.
        struct stat now {};
        const bool held = ::flock(descriptor_, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
        if (held && ::fstat(descriptor_, &now) == 0 && now.st_nlink > 0) {
            name_ = name;
            return;
        }
        ::close(std::exchange(descriptor_, -1));
        errno = EEXIST;
    }
    fail();
}
void file_beside::take_mode_of(const struct stat& before) const {
    struct stat now {};
    if (::fstat(descriptor_, &now) != 0) { fail(); }
    bool same_owner = now.st_uid == before.st_uid && now.st_gid == before.st_gid;
    // Only the superuser may give a file away; whoever may not keeps the new one.
    if (!same_owner) { same_owner = ::fchown(descriptor_, before.st_uid, before.st_gid) == 0; }
    const mode_t kept = before.st_mode & (same_owner ? 07777U : 0777U);
    if (::fchmod(descriptor_, kept) != 0) { fail(); }
}
file_beside::file_beside(file_beside&& other) noexcept
    : place_(std::move(other.place_)), name_(std::exchange(other.name_, {})),
      descriptor_(std::exchange(other.descriptor_, -1)) {}
file_beside::~file_beside() {
    if (!name_.empty()) { ::unlink(name_.c_str()); }
    if (descriptor_ >= 0) { ::close(descriptor_); }
}

void file_beside::fill(std::string_view bytes) {
    write_bytes(descriptor_, bytes, place_);
    // A file system may report a full disk as late as when a descriptor is closed; the file itself stays open.
    const int twin = ::dup(descriptor_);
    if (twin < 0 || ::close(twin) != 0) { fail(); }
}
void file_beside::replace() {
    // Nothing without a name can take a place that is taken.
    for (int attempt = 0; name_.empty(); ++attempt) {
        const auto name = name_beside(place_, attempt);
        if (give_name(descriptor_, name)) {
            name_ = name;
        } else if (errno != EEXIST || attempt == 100) {
            fail();
        }
    }
    if (::rename(name_.c_str(), place_.c_str()) != 0) { fail(); }
    name_.clear();
}
void file_beside::add() {
    if (name_.empty() ? !give_name(descriptor_, place_) : ::link(name_.c_str(), place_.c_str()) != 0) { fail(); }
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

} // namespace drawing
