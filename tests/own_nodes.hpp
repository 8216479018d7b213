#pragma once
/// @file
/// Devices and disks of a test's own, so that none of the machine's is ever written: nodes in a scratch folder, and a small
/// disk that no other program sees. Who may not make them gets none, and the test says that it did not look.

#include <csignal>
#include <filesystem>

#include <fcntl.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <unistd.h>

namespace files {

/// Makes a node of the kernel's memory devices: 3 takes everything (null), 7 is always full (devices.txt of the Linux
/// kernel). Whether it can be used; a file system may hold nodes and yet open none.
inline bool make_memory_device(const std::filesystem::path& node, unsigned minor) {
    if (::mknod(node.c_str(), S_IFCHR | 0666, makedev(1, minor)) != 0) { return false; }
    const int opened = ::open(node.c_str(), O_WRONLY | O_CLOEXEC);
    if (opened < 0) { return false; }
    ::close(opened);
    return true;
}
inline bool make_full_device(const std::filesystem::path& node) { return make_memory_device(node, 7); }

/// A disk of 64 kB on a folder, seen by this program and those that it starts, gone with this.
class small_disk {
public:
    explicit small_disk(std::filesystem::path folder) : folder_(std::move(folder)) {
        std::filesystem::create_directory(folder_);
        // In a name space of its own nothing that is mounted is seen outside.
        there_ = ::unshare(CLONE_NEWNS) == 0 && ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
                 ::mount("tmpfs", folder_.c_str(), "tmpfs", 0, "size=64k") == 0;
    }
    small_disk(const small_disk&) = delete;
    small_disk& operator=(const small_disk&) = delete;
    ~small_disk() {
        if (there_) { ::umount2(folder_.c_str(), MNT_DETACH); }
    }
    [[nodiscard]] bool is_there() const { return there_; }

private:
    std::filesystem::path folder_;
    bool there_ = false;
};

/// No file may grow past a size while this lives, as on a disk that is full. (Superuser too.)
class full_disk {
public:
    explicit full_disk(rlim_t most) {
        old_handler_ = std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &old_);
        rlimit small = old_;
        small.rlim_cur = most;
        setrlimit(RLIMIT_FSIZE, &small);
    }
    full_disk(const full_disk&) = delete;
    full_disk& operator=(const full_disk&) = delete;
    ~full_disk() {
        setrlimit(RLIMIT_FSIZE, &old_);
        std::signal(SIGXFSZ, old_handler_);
    }

private:
    rlimit old_{};
    void (*old_handler_)(int) = SIG_DFL;
};

} // namespace files
