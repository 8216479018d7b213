// Files that are whole or not there, on Windows.
#include <algorithm>
#include <cstddef>
#include <new>
#include <utility>
#include <vector>

#include <windows.h>

#include "destination.hpp"
#include "file.hpp"
#include "program.hpp"

namespace outside {

namespace {

/// The last error as one that both systems have, where there is one: its sentence is then the same on both.
std::error_code last_error() {
    constexpr std::pair<DWORD, std::errc> known[] = {
        {ERROR_FILE_NOT_FOUND, std::errc::no_such_file_or_directory},
        {ERROR_PATH_NOT_FOUND, std::errc::no_such_file_or_directory},
        {ERROR_INVALID_DRIVE, std::errc::no_such_file_or_directory},
        {ERROR_ACCESS_DENIED, std::errc::permission_denied},
        {ERROR_SHARING_VIOLATION, std::errc::permission_denied},
        {ERROR_WRITE_PROTECT, std::errc::read_only_file_system},
        {ERROR_FILE_EXISTS, std::errc::file_exists},
        {ERROR_ALREADY_EXISTS, std::errc::file_exists},
        {ERROR_DISK_FULL, std::errc::no_space_on_device},
        {ERROR_HANDLE_DISK_FULL, std::errc::no_space_on_device},
        {ERROR_INVALID_NAME, std::errc::invalid_argument},
        {ERROR_FILENAME_EXCED_RANGE, std::errc::filename_too_long},
    };
    const DWORD code = ::GetLastError();
    for (const auto& k : known) {
        if (k.first == code) { return std::make_error_code(k.second); }
    }
    return {static_cast<int>(code), std::system_category()};
}

HANDLE handle_of(std::intptr_t open) { return reinterpret_cast<HANDLE>(open); }

/// All bytes into an open file, down to the disk.
bool write_bytes(HANDLE open, std::string_view bytes) {
    while (!bytes.empty()) {
        constexpr std::size_t most = 1U << 20U;
        DWORD written = 0;
        if (!::WriteFile(open, bytes.data(), static_cast<DWORD>(std::min(bytes.size(), most)), &written, nullptr)) {
            return false;
        }
        bytes.remove_prefix(written);
    }
    // What is no file on a disk has none to reach.
    return ::GetFileType(open) != FILE_TYPE_DISK || ::FlushFileBuffers(open) != 0;
}

constexpr DWORD shared_with_all = FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE;

/// Where an open file stands in the end, past the links.
std::filesystem::path end_of_links(HANDLE open) {
    std::wstring name(MAX_PATH, L'\0');
    DWORD size = ::GetFinalPathNameByHandleW(open, name.data(), static_cast<DWORD>(name.size()), 0);
    if (size > name.size()) {
        name.resize(size);
        size = ::GetFinalPathNameByHandleW(open, name.data(), static_cast<DWORD>(name.size()), 0);
    }
    name.resize(size);
    return name;
}

/// Moves an open file to another name; needs it opened for that.
bool move_open(HANDLE open, const std::filesystem::path& to, bool over_another) {
    const std::wstring name = std::filesystem::absolute(to).wstring();
    std::vector<std::byte> room(sizeof(FILE_RENAME_INFO) + name.size() * sizeof(wchar_t));
    auto* const said = new (room.data()) FILE_RENAME_INFO{};
    said->ReplaceIfExists = over_another ? TRUE : FALSE;
    said->FileNameLength = static_cast<DWORD>(name.size() * sizeof(wchar_t));
    std::copy(name.begin(), name.end(), said->FileName);
    return ::SetFileInformationByHandle(open, FileRenameInfo, said, static_cast<DWORD>(room.size())) != 0;
}

} // namespace

destination destination_of(const std::filesystem::path& file) {
    destination d{file, {}, false};
    const DWORD attributes = ::GetFileAttributesW(file.c_str());
    if (attributes != INVALID_FILE_ATTRIBUTES && (attributes & FILE_ATTRIBUTE_DIRECTORY) != 0) {
        throw cannot_write(file, std::make_error_code(std::errc::is_a_directory));
    }
    const HANDLE there = ::CreateFileW(file.c_str(), GENERIC_WRITE, shared_with_all, nullptr, OPEN_EXISTING, 0, nullptr);
    if (there == INVALID_HANDLE_VALUE) {
        if (attributes == INVALID_FILE_ATTRIBUTES) { return d; } // what else is wrong, making it tells
        throw cannot_write(file, last_error());
    }
    d.through = ::GetFileType(there) != FILE_TYPE_DISK;
    if (!d.through) {
        d.before.emplace();
        if ((attributes & FILE_ATTRIBUTE_REPARSE_POINT) != 0) { d.place = end_of_links(there); }
    }
    ::CloseHandle(there);
    return d;
}

void write_through(const std::filesystem::path& file, std::string_view bytes) {
    const HANDLE open = ::CreateFileW(file.c_str(), GENERIC_WRITE, shared_with_all, nullptr, OPEN_EXISTING, 0, nullptr);
    if (open == INVALID_HANDLE_VALUE) { throw cannot_write(file, last_error()); }
    const bool written = write_bytes(open, bytes);
    const std::error_code why = last_error();
    ::CloseHandle(open);
    if (!written) { throw cannot_write(file, why); }
}

void file_beside::fail() const { throw cannot_write(place_, last_error()); }

file_beside::file_beside(std::filesystem::path place, const file_owner*, beside) : place_(std::move(place)) {
    make_named();
}
void file_beside::make_named() {
    for (int attempt = 0; attempt < 100; ++attempt) {
        const auto name = name_beside(place_, ::GetCurrentProcessId(), attempt);
        // Shared with nobody: as long as it is open, nobody takes it for left over.
        const HANDLE made =
            ::CreateFileW(name.c_str(), GENERIC_WRITE | DELETE, 0, nullptr, CREATE_NEW, FILE_ATTRIBUTE_NORMAL, nullptr);
        if (made != INVALID_HANDLE_VALUE) {
            open_ = reinterpret_cast<std::intptr_t>(made);
            name_ = name;
            return;
        }
        if (::GetLastError() != ERROR_FILE_EXISTS) { break; }
    }
    fail();
}
file_beside::file_beside(file_beside&& other) noexcept
    : place_(std::move(other.place_)), name_(std::exchange(other.name_, {})), open_(std::exchange(other.open_, -1)) {}
file_beside::~file_beside() {
    if (open_ != -1) { ::CloseHandle(handle_of(open_)); }
    if (!name_.empty()) { ::DeleteFileW(name_.c_str()); }
}

void file_beside::fill(std::string_view bytes) {
    if (!write_bytes(handle_of(open_), bytes)) { fail(); }
}
void file_beside::replace() {
    if (!move_open(handle_of(open_), place_, true)) { fail(); }
    name_.clear();
    ::CloseHandle(handle_of(std::exchange(open_, -1))); // nobody can read it while it is open here
}
void file_beside::add() {
    if (!move_open(handle_of(open_), place_, false)) { fail(); }
    name_.clear();
    ::CloseHandle(handle_of(std::exchange(open_, -1)));
}

void remove_leftovers(const std::filesystem::path& folder) noexcept {
    try {
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            // One that is being written cannot be removed.
            if (is_name_beside(text_of(entry.path().filename())) && entry.is_regular_file()) {
                ::DeleteFileW(entry.path().c_str());
            }
        }
    } catch (const std::exception&) {
        // A folder that cannot be read keeps what is in it.
    }
}

} // namespace outside
