// Drawings that cannot be written.
#include <doctest/doctest.h>

#include "own_nodes.hpp"
#include "read_back.hpp"
#include "solved.hpp"

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}

} // namespace

TEST_CASE("drawings on a full disk: an error, and what was drawn before stays whole") {
    const files::scratch_folder folder;
    drawing::options how;
    how.kinds = {drawing::file_kind::pdf, drawing::file_kind::svg};
    for (const rlim_t room : {4000U, 45000U}) { // too little for the first file; too little for a later one
        const files::full_disk full(room);
        CHECK_THROWS_AS(drawing::write_all(folder.path / "out", drawn::four_course(), nullptr, how), outside::cannot_write);
        CHECK(files_in(folder.path / "out") == 0);
    }
    const auto before = drawing::write_all(folder.path / "out", drawn::four_course(), nullptr, how).written;
    std::vector<std::string> bytes;
    for (const auto& f : before) { bytes.push_back(files::read_all(f)); }
    {
        const files::full_disk full(45000);
        how.head.title = "another";
        CHECK_THROWS_AS(drawing::write_all(folder.path / "out", drawn::four_course(), nullptr, how), outside::cannot_write);
    }
    CHECK(files_in(folder.path / "out") == before.size());
    for (std::size_t i = 0; i < before.size(); ++i) { CHECK(files::read_all(before[i]) == bytes[i]); }
}

TEST_CASE("the folder is made, its parents are not") {
    const files::scratch_folder folder;
    drawing::options how;
    how.kinds = {drawing::file_kind::pdf};
    const auto files = drawing::write_all(folder.path / "new", drawn::four_course(), nullptr, how).written;
    CHECK(files.size() == 3);
    for (const auto& f : files) { CHECK(std::filesystem::file_size(f) > 1000); }
    CHECK_THROWS_AS(drawing::write_all(folder.path / "no" / "where", drawn::four_course(), nullptr, how),
                    outside::cannot_write);
    const auto plain = folder.write("plain", "");
    CHECK_THROWS_AS(drawing::write_all(plain, drawn::four_course(), nullptr, how), outside::cannot_write);
}
