#pragma once
/// @file
/// A new file that is filled before it has its name.

#include <cstdint>
#include <filesystem>
#include <string_view>

namespace outside {

/// How a new file is kept out of sight until it is whole.
enum class beside {
    nameless, ///< the system gives it no name at all where it can (Linux: O_TMPFILE), so that a kill leaves nothing
    named     ///< under a name of its own; after a kill `remove_leftovers` finds it
};

/// Whose the file is that stands at a place, and what may be done with it, where the system knows that as three numbers.
struct file_owner {
    unsigned mode = 0;
    unsigned user = 0;
    unsigned group = 0;
};

/// A new file in the folder of its place; it goes away unless it is moved there. Every error is thrown as `cannot_write`.
class file_beside {
public:
    /// @param place where the file will stand; not a link
    /// @param before what stands there now, or null: the new file has its mode and, where that is allowed, its owner
    explicit file_beside(std::filesystem::path place, const file_owner* before = nullptr, beside how = beside::nameless);
    file_beside(const file_beside&) = delete;
    file_beside& operator=(const file_beside&) = delete;
    file_beside(file_beside&& other) noexcept;
    file_beside& operator=(file_beside&&) = delete;
    ~file_beside();

    /// Where it will stand.
    [[nodiscard]] const std::filesystem::path& place() const { return place_; }
    /// Adds bytes to its end, down to the disk.
    void fill(std::string_view bytes);
    /// Into its place, in place of what stands there.
    void replace();
    /// Into its place, where nothing stands: `file_exists` otherwise.
    void add();

private:
    void make_named();
    [[noreturn]] void fail() const;

    std::filesystem::path place_;
    std::filesystem::path name_{}; ///< empty: it has none
    std::intptr_t open_ = -1;      ///< what the system calls the open file
};

/// Removes what a program that was killed left of its files beside their places: files of this user under the names that
/// `file_beside` gives, that nothing is writing any more. What cannot be looked at or removed stays.
void remove_leftovers(const std::filesystem::path& folder) noexcept;

} // namespace outside
