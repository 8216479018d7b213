// Files that are whole or not there: what POSIX systems know of modes, owners, links, devices, kills and full disks.
#include <csignal>
#include <filesystem>
#include <string>
#include <thread>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <doctest/doctest.h>

#include <file.hpp>

#include "own_nodes.hpp"
#include "scratch_folder.hpp"

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}
/// What writing a file was refused with.
std::error_code refusal(const std::filesystem::path& file, std::string_view bytes) {
    try {
        outside::write_file(file, bytes);
    } catch (const outside::cannot_write& e) {
        CHECK(e.file() == file);
        CHECK(std::string(e.what()).find(file.string()) != std::string::npos);
        CHECK(std::string(e.what()).find(e.why().message()) != std::string::npos);
        return e.why();
    }
    return {};
}

} // namespace

TEST_CASE("what cannot be written is refused by name and reason, and nothing is left") {
    const files::scratch_folder folder;
    CHECK(refusal(folder.path / "none" / "a.svg", "x") == std::errc::no_such_file_or_directory);
    const auto file = folder.write("plain", "old");
    CHECK(refusal(file / "a.svg", "x") == std::errc::not_a_directory);
    std::filesystem::create_directory(folder.path / "a.svg");
    CHECK(refusal(folder.path / "a.svg", "x") == std::errc::is_a_directory);
    CHECK(refusal(folder.path / std::string(300, 'n'), "x") == std::errc::filename_too_long);
    CHECK(files_in(folder.path) == 2);
    if (geteuid() != 0) {
        std::filesystem::permissions(folder.path, std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
        CHECK(refusal(folder.path / "b.svg", "x") == std::errc::permission_denied);
        std::filesystem::permissions(folder.path, std::filesystem::perms::owner_all);
    }
}

TEST_CASE("a device is written through and stays; one that is full is an error") {
    const files::scratch_folder folder;
    const auto null = folder.path / "null", full = folder.path / "full";
    if (!files::make_memory_device(null, 3) || !files::make_full_device(full)) {
        MESSAGE("not looked at: devices need the superuser, and a folder that may hold them");
        return;
    }
    CHECK(refusal(null, "x") == std::error_code());
    CHECK(refusal(full, "x") == std::errc::no_space_on_device);
    std::filesystem::create_symlink("full", folder.path / "link");
    CHECK(refusal(folder.path / "link", "x") == std::errc::no_space_on_device);
    CHECK(std::filesystem::is_character_file(null));
    CHECK(std::filesystem::is_character_file(full));
    CHECK(files_in(folder.path) == 3);
    // Where nothing can be lost, "only new" asks for nothing more.
    outside::write_file(null, "x", outside::standing::is_kept);
}

TEST_CASE("a pipe is written through and stays") {
    const files::scratch_folder folder;
    const auto pipe = folder.path / "pipe";
    REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
    const std::string bytes(200000, 'x'); // more than a pipe holds
    std::string got;
    std::thread reader([&] { got = files::read_all(pipe); });
    outside::write_file(pipe, bytes);
    reader.join();
    CHECK(got == bytes);
    CHECK(std::filesystem::is_fifo(pipe));
}

TEST_CASE("what an open file holds stays before what is written to it as one") {
    const files::scratch_folder folder;
    const auto file = folder.write("log", "first\n");
    const int open_file = open(file.c_str(), O_WRONLY | O_APPEND | O_CLOEXEC);
    const std::string name = "/proc/self/fd/" + std::to_string(open_file);
    if (std::filesystem::exists(name)) {
        std::filesystem::create_symlink(name, folder.path / "link");
        outside::write_file(folder.path / "link", "second\n");
        CHECK(files::read_all(file) == "first\nsecond\n");
    }
    close(open_file);
}

TEST_CASE("a link stays, and what it points to is written") {
    const files::scratch_folder folder;
    std::filesystem::create_directory(folder.path / "in");
    const auto target = folder.write("in/target", "before");
    std::filesystem::create_symlink("in/middle", folder.path / "link");
    std::filesystem::create_symlink("target", folder.path / "in" / "middle");
    outside::write_file(folder.path / "link", "after");
    CHECK(std::filesystem::is_symlink(folder.path / "link"));
    CHECK(std::filesystem::is_symlink(folder.path / "in" / "middle"));
    CHECK(std::filesystem::is_regular_file(std::filesystem::symlink_status(target)));
    CHECK(files::read_all(target) == "after");
    // One whose target is not there makes it.
    std::filesystem::create_symlink(folder.path / "in" / "new", folder.path / "dangling");
    outside::write_file(folder.path / "dangling", "new");
    CHECK(std::filesystem::is_symlink(folder.path / "dangling"));
    CHECK(files::read_all(folder.path / "in" / "new") == "new");
    std::filesystem::create_symlink("circle", folder.path / "circle");
    CHECK(refusal(folder.path / "circle", "x") == std::errc::too_many_symbolic_link_levels);
    std::filesystem::create_symlink("none/file", folder.path / "nowhere");
    CHECK(refusal(folder.path / "nowhere", "x") == std::errc::no_such_file_or_directory);
    CHECK(files_in(folder.path) == 5);
    CHECK(files_in(folder.path / "in") == 3);
}

TEST_CASE("a file keeps its mode, a new one has that of every new file") {
    const files::scratch_folder folder;
    const auto file = folder.write("sheet", "before");
    const auto mode_of = [](const std::filesystem::path& f) {
        struct stat now {};
        REQUIRE(::stat(f.c_str(), &now) == 0);
        return now.st_mode & 07777U;
    };
    for (const mode_t mode : {0440U, 0600U, 0666U, 0755U}) {
        REQUIRE(chmod(file.c_str(), mode) == 0);
        outside::write_file(file, std::to_string(mode));
        CHECK(mode_of(file) == mode);
        CHECK(files::read_all(file) == std::to_string(mode));
    }
    const mode_t mask = umask(027);
    outside::write_file(folder.path / "new", "x");
    umask(mask);
    CHECK(mode_of(folder.path / "new") == 0640U);
    if (geteuid() == 0) {
        REQUIRE(chown(file.c_str(), 12345, 23456) == 0);
        outside::write_file(file, "x");
        struct stat now {};
        REQUIRE(::stat(file.c_str(), &now) == 0);
        CHECK(now.st_uid == 12345);
        CHECK(now.st_gid == 23456);
        CHECK(mode_of(file) == 0755U);
    }
}

TEST_CASE("what stands is kept where that is asked for") {
    const files::scratch_folder folder;
    const auto file = folder.write("job", "filled in");
    std::filesystem::create_symlink("job", folder.path / "link");
    for (const auto& there : {file, folder.path / "link"}) {
        try {
            outside::write_file(there, "empty", outside::standing::is_kept);
            FAIL("nothing was thrown");
        } catch (const outside::cannot_write& e) {
            CHECK(e.why() == std::errc::file_exists);
            CHECK(e.file() == there);
        }
    }
    CHECK(files::read_all(file) == "filled in");
    outside::write_file(folder.path / "new", "empty", outside::standing::is_kept);
    CHECK(files::read_all(folder.path / "new") == "empty");
    // One that came meanwhile is kept, too.
    outside::waiting_file late(folder.path / "late", "mine", outside::standing::is_kept);
    (void)folder.write("late", "theirs");
    CHECK_THROWS_AS(late.put(), outside::cannot_write);
    CHECK(files::read_all(folder.path / "late") == "theirs");
    CHECK(files_in(folder.path) == 4);
}

TEST_CASE("a full disk keeps the old file whole") {
    const files::scratch_folder folder;
    const files::small_disk disk(folder.path / "disk");
    if (!disk.is_there()) {
        MESSAGE("not looked at: a disk of one's own needs the superuser");
        return;
    }
    const auto file = folder.path / "disk" / "sheet";
    outside::write_file(file, "as it was");
    CHECK(refusal(file, std::string(1000000, 'x')) == std::errc::no_space_on_device);
    CHECK(files::read_all(file) == "as it was");
    CHECK(refusal(folder.path / "disk" / "new", std::string(1000000, 'x')) == std::errc::no_space_on_device);
    CHECK(files_in(folder.path / "disk") == 1);
}

namespace {

/// Runs something in a program of its own that kills itself there.
template <class F>
void killed(F&& f) {
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        f();
        ::kill(::getpid(), SIGKILL);
    }
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    CHECK(WIFSIGNALED(status));
}

} // namespace

TEST_CASE("a kill leaves the old file whole, and nothing beside it for long") {
    const files::scratch_folder folder;
    const auto file = folder.write("sheet", "as it was");
    const auto half_done = [&](outside::beside how) {
        killed([&] {
            outside::file_beside made(file, nullptr, how);
            made.fill("half of");
            ::kill(::getpid(), SIGKILL);
        });
        CHECK(files::read_all(file) == "as it was");
    };
    half_done(outside::beside::named);
    CHECK(files_in(folder.path) == 2);
    outside::write_file(folder.path / "other", "x");
    CHECK(files_in(folder.path) == 2);
    // Without a name nothing is left at all, where the file system can do that.
    const int nameless = open(folder.path.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, 0600);
    if (nameless >= 0) {
        close(nameless);
        half_done(outside::beside::nameless);
        CHECK(files_in(folder.path) == 2);
    }
    // A signal in the middle of writing: no file may grow so large.
    killed([&] {
        const rlimit small{1000, 1000};
        setrlimit(RLIMIT_FSIZE, &small);
        std::signal(SIGXFSZ, SIG_DFL);
        outside::write_file(file, std::string(5000, 'x'));
    });
    CHECK(files::read_all(file) == "as it was");
    outside::write_file(file, "after");
    CHECK(files::read_all(file) == "after");
    CHECK(files_in(folder.path) == 2);
}

TEST_CASE("only what this program left, and does not write any more, is cleared away") {
    const files::scratch_folder folder;
    const auto kept = {"sheet",
                       "sheet.new-1-0",
                       "sheet.new-tautline-1",
                       "sheet.new-tautline-1-",
                       "sheet.new-tautline-1-2-3",
                       "sheet.new-tautline-1-x",
                       ".new-tautline-1-2",
                       "sheet.new-tautline-1-2.txt"};
    for (const char* name : kept) { (void)folder.write(name, "mine"); }
    std::filesystem::create_directory(folder.path / "folder.new-tautline-1-2");
    std::filesystem::create_symlink("sheet", folder.path / "link.new-tautline-1-2");
    const auto left = folder.write("sheet.new-tautline-1-2", "left over");
    const auto busy = folder.write("sheet.new-tautline-1-3", "being written");
    const int writing = open(busy.c_str(), O_WRONLY | O_CLOEXEC);
    REQUIRE(flock(writing, LOCK_EX) == 0);
    outside::remove_leftovers(folder.path);
    CHECK(!std::filesystem::exists(left));
    CHECK(std::filesystem::exists(busy));
    CHECK(files_in(folder.path) == kept.size() + 3);
    close(writing);
    outside::remove_leftovers(folder.path);
    CHECK(!std::filesystem::exists(busy));
    outside::remove_leftovers(folder.path / "none"); // nothing to say of a folder that is not there
}

TEST_CASE("a disk that fills up leaves what was there before") {
    const files::scratch_folder folder;
    const auto file = folder.write("sheet.pdf", "as it was");
    {
        const files::full_disk full(1000);
        CHECK(refusal(file, std::string(5000, 'x')) == std::errc::file_too_large);
        CHECK(refusal(file, std::string(1000, 'y')) == std::error_code());
    }
    CHECK(files::read_all(file) == std::string(1000, 'y'));
    CHECK(files_in(folder.path) == 1);
}
