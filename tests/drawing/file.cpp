// Files that are whole or not there.
#include <csignal>

#include <fcntl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <doctest/doctest.h>

#include "read_back.hpp"
#include "solved.hpp"

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}
/// What writing a file was refused with.
std::error_code refusal(const std::filesystem::path& file, std::string_view bytes) {
    try {
        drawing::write_file(file, bytes);
    } catch (const drawing::cannot_write& e) {
        CHECK(e.file() == file);
        CHECK(std::string(e.what()).find(file.string()) != std::string::npos);
        CHECK(std::string(e.what()).find(e.why().message()) != std::string::npos);
        return e.why();
    }
    return {};
}

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

} // namespace

TEST_CASE("a file is written whole and in place of the one before") {
    const files::scratch_folder folder;
    const auto file = folder.path / "sheet.pdf";
    std::string bytes(100000, 'x');
    bytes[500] = '\0';
    drawing::write_file(file, "before");
    drawing::write_file(file, bytes);
    CHECK(files::read_all(file) == bytes);
    drawing::write_file(file, "");
    CHECK(files::read_all(file).empty());
    CHECK(files_in(folder.path) == 1);
}

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

TEST_CASE("a device that is full is an error") {
    const int full = open("/dev/full", O_WRONLY | O_CLOEXEC);
    REQUIRE(full >= 0);
    try {
        drawing::write_bytes(full, "bytes", "sheet.pdf");
        FAIL("nothing was thrown");
    } catch (const drawing::cannot_write& e) {
        CHECK(e.why() == std::errc::no_space_on_device);
        CHECK(e.file() == "sheet.pdf");
    }
    close(full);
}

TEST_CASE("a disk that fills up leaves what was there before") {
    const files::scratch_folder folder;
    const auto file = folder.write("sheet.pdf", "as it was");
    {
        const full_disk full(1000);
        CHECK(refusal(file, std::string(5000, 'x')) == std::errc::file_too_large);
        CHECK(refusal(file, std::string(1000, 'y')) == std::error_code());
    }
    CHECK(files::read_all(file) == std::string(1000, 'y'));
    CHECK(files_in(folder.path) == 1);
}

TEST_CASE("drawings on a full disk: an error, and only whole files") {
    const files::scratch_folder folder;
    drawing::options how;
    how.kinds = {drawing::file_kind::svg, drawing::file_kind::pdf};
    {
        // The side view's SVG is larger than its PDF, so the first file of all fails.
        const full_disk full(4000);
        CHECK_THROWS_AS(drawing::write_all(folder.path / "out", drawn::four_course(), nullptr, how), drawing::cannot_write);
    }
    CHECK(files_in(folder.path / "out") == 0);
    {
        const full_disk full(45000);
        how.kinds = {drawing::file_kind::pdf, drawing::file_kind::svg};
        CHECK_THROWS_AS(drawing::write_all(folder.path / "out", drawn::four_course(), nullptr, how), drawing::cannot_write);
    }
    CHECK(files_in(folder.path / "out") >= 1);
    for (const auto& entry : std::filesystem::directory_iterator(folder.path / "out")) {
        CHECK(entry.path().extension() == ".pdf");
        CHECK(drawn::succeeds("pdfinfo '" + entry.path().string() + "'"));
    }
}

TEST_CASE("the folder is made, its parents are not") {
    const files::scratch_folder folder;
    drawing::options how;
    how.kinds = {drawing::file_kind::pdf};
    const auto files = drawing::write_all(folder.path / "new", drawn::four_course(), nullptr, how);
    CHECK(files.size() == 3);
    for (const auto& f : files) { CHECK(std::filesystem::file_size(f) > 1000); }
    CHECK_THROWS_AS(drawing::write_all(folder.path / "no" / "where", drawn::four_course(), nullptr, how),
                    drawing::cannot_write);
    const auto plain = folder.write("plain", "");
    CHECK_THROWS_AS(drawing::write_all(plain, drawn::four_course(), nullptr, how), drawing::cannot_write);
}
