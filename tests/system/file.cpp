// Files that are whole or not there, and names in any letters: what holds on every system.
#include <string>

#include <doctest/doctest.h>

#include <destination.hpp>
#include <file.hpp>
#include <program.hpp>

#include "scratch_folder.hpp"

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}
/// What writing a file was refused with.
std::error_code refusal(const std::filesystem::path& file, outside::standing s = outside::standing::is_replaced) {
    try {
        outside::write_file(file, "x", s);
    } catch (const outside::cannot_write& e) {
        CHECK(e.file() == file);
        CHECK(std::string(e.what()).find(outside::text_of(file)) != std::string::npos);
        CHECK(std::string(e.what()).find(e.why().message()) != std::string::npos);
        return e.why();
    }
    return {};
}
const std::string strange = "\xC3\xA9tude \xE2\x80\x94 \xCE\xBB \xF0\x9D\x84\x9E.txt"; // é, a dash, lambda, a clef

} // namespace

TEST_CASE("a file is written whole and in place of the one before") {
    const files::scratch_folder folder;
    const auto file = folder.path / "sheet.pdf";
    std::string bytes(100000, 'x');
    bytes[500] = '\0';
    outside::write_file(file, "before");
    outside::write_file(file, bytes);
    CHECK(files::read_all(file) == bytes);
    outside::write_file(file, "");
    CHECK(files::read_all(file).empty());
    CHECK(files_in(folder.path) == 1);
}

TEST_CASE("both ways of writing beside end in the same file") {
    for (const auto how : {outside::beside::named, outside::beside::nameless}) {
        const files::scratch_folder folder;
        const auto file = folder.write("sheet", "before");
        {
            outside::file_beside made(file, nullptr, how);
            made.fill("after");
            CHECK(files::read_all(file) == "before");
            made.replace();
        }
        CHECK(files::read_all(file) == "after");
        {
            outside::file_beside made(folder.path / "new", nullptr, how);
            made.fill("new");
            made.add();
        }
        CHECK(files::read_all(folder.path / "new") == "new");
        { const outside::file_beside given_up(file, nullptr, how); }
        CHECK(files_in(folder.path) == 2);
    }
}

TEST_CASE("what cannot be written everywhere is refused by name and reason, and nothing is left") {
    const files::scratch_folder folder;
    CHECK(refusal(folder.path / "none" / "a.svg") == std::errc::no_such_file_or_directory);
    std::filesystem::create_directory(folder.path / "a.svg");
    CHECK(refusal(folder.path / "a.svg") == std::errc::is_a_directory);
    CHECK(refusal(folder.path / "a.svg" / "") == std::errc::is_a_directory);
    CHECK(files_in(folder.path) == 1);
}

TEST_CASE("what stands is kept where that is asked for, on every system") {
    const files::scratch_folder folder;
    const auto file = folder.write("job", "filled in");
    CHECK(refusal(file, outside::standing::is_kept) == std::errc::file_exists);
    CHECK(files::read_all(file) == "filled in");
    CHECK(refusal(folder.path / "new", outside::standing::is_kept) == std::error_code());
    CHECK(files::read_all(folder.path / "new") == "x");
    // One that came meanwhile is kept, too.
    outside::waiting_file late(folder.path / "late", "mine", outside::standing::is_kept);
    (void)folder.write("late", "theirs");
    try {
        late.put();
        FAIL("nothing was thrown");
    } catch (const outside::cannot_write& e) { CHECK(e.why() == std::errc::file_exists); }
    CHECK(files::read_all(folder.path / "late") == "theirs");
}

TEST_CASE("what is being written is not taken for left over") {
    const files::scratch_folder folder;
    for (const char* name : {"sheet", "sheet.new-tautline-1", "sheet.new-tautline-1-x", ".new-tautline-1-2"}) {
        (void)folder.write(name, "mine");
    }
    (void)folder.write("sheet.new-tautline-1-2", "left over");
    outside::file_beside writing(folder.path / "other", nullptr, outside::beside::named);
    writing.fill("whole");
    CHECK(files_in(folder.path) == 6);
    outside::remove_leftovers(folder.path);
    CHECK(files_in(folder.path) == 5);
    writing.replace();
    CHECK(files::read_all(folder.path / "other") == "whole");
    outside::remove_leftovers(folder.path / "none"); // nothing to say of a folder that is not there
}

TEST_CASE("a file is moved with what holds it") {
    const files::scratch_folder folder;
    {
        outside::file_beside first(folder.path / "a", nullptr, outside::beside::named);
        first.fill("a");
        outside::file_beside second(std::move(first));
        second.replace();
    }
    CHECK(files::read_all(folder.path / "a") == "a");
    CHECK(files_in(folder.path) == 1);
}

TEST_CASE("names in any letters are written, read and told") {
    CHECK(outside::text_of(outside::path_of(strange)) == strange);
    const files::scratch_folder folder;
    const auto file = folder.path / outside::path_of(strange);
    outside::write_file(file, "first");
    outside::write_file(file, "second");
    CHECK(files::read_all(file) == "second");
    CHECK(files_in(folder.path) == 1);
    CHECK(outside::text_of(std::filesystem::directory_iterator(folder.path)->path().filename()) == strange);
    std::filesystem::remove(file);
    std::filesystem::create_directory(file);
    CHECK(refusal(file) == std::errc::is_a_directory);
}

TEST_CASE("names beside a place say whose they are, however long the place's is") {
    const auto beside = outside::name_beside(std::filesystem::path("in") / std::string(300, 'n'), 42, 7);
    CHECK(beside.parent_path() == "in");
    CHECK(beside.filename().native().size() == 255);
    CHECK(outside::text_of(beside).ends_with("-42-7"));
    CHECK(outside::is_name_beside(outside::text_of(beside.filename())));
    CHECK_FALSE(outside::is_name_beside("sheet"));
    CHECK(outside::folder_of("sheet") == ".");
}
