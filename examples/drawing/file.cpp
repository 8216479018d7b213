#include "file.hpp"

#include <cerrno>
#include <string>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

#include "text.hpp"

namespace drawing {

namespace {

std::error_code last_error() { return {errno, std::generic_category()}; }

/// A new file beside the place of another; it goes away unless it was moved there.
class file_beside {
public:
    explicit file_beside(const std::filesystem::path& place) : place_(place) {
        for (int attempt = 0; attempt < 100; ++attempt) {
            path_ = place;
            path_ += ".new-" + std::to_string(::getpid()) + "-" + std::to_string(attempt);
            descriptor_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            if (descriptor_ >= 0 || errno != EEXIST) { break; }
        }
        if (descriptor_ < 0) { throw cannot_write(place, last_error()); }
    }
    file_beside(const file_beside&) = delete;
    file_beside& operator=(const file_beside&) = delete;
    ~file_beside() {
        if (descriptor_ >= 0) { ::close(descriptor_); }
        if (!moved_) { ::unlink(path_.c_str()); }
    }

    void fill(std::string_view bytes) {
        write_bytes(descriptor_, bytes, place_);
        // A file system may report a full disk as late as here. After an error the descriptor is gone all the same.
        if (::close(std::exchange(descriptor_, -1)) != 0) { throw cannot_write(place_, last_error()); }
    }
    void move_to_place() {
        if (::rename(path_.c_str(), place_.c_str()) != 0) { throw cannot_write(place_, last_error()); }
        moved_ = true;
    }

private:
    std::filesystem::path place_;
    std::filesystem::path path_{};
    int descriptor_ = -1;
    bool moved_ = false;
};

} // namespace

cannot_write::cannot_write(std::filesystem::path file, std::error_code why)
    : std::runtime_error("cannot write " + printable(file.string(), 4096) + ": " + why.message()), file_(std::move(file)),
      why_(why) {}

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

void write_file(const std::filesystem::path& file, std::string_view bytes) {
    file_beside made(file);
    made.fill(bytes);
    made.move_to_place();
}

} // namespace drawing
