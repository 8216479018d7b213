// Text from outside made fit for paper.
#include <random>
#include <string>

#include <iconv.h>

#include <doctest/doctest.h>

#include <text.hpp>

using drawing::printable;

namespace {

const std::string bad = "\xEF\xBF\xBD"; // U+FFFD

/// Whether the C library reads it as UTF-8.
bool is_utf8(std::string text) {
    const iconv_t to = iconv_open("UTF-32LE", "UTF-8");
    std::string out(4 * text.size() + 16, '\0');
    char *from = text.data(), *into = out.data();
    std::size_t left = text.size(), room = out.size();
    const bool ok = iconv(to, &from, &left, &into, &room) != static_cast<std::size_t>(-1) && left == 0;
    iconv_close(to);
    return ok;
}

} // namespace

TEST_CASE("plain words stay as they are") {
    for (const std::string s :
         {"", "Octave mandolin", "Guit\xC3\xA1rra", "\xE4\xB8\x89\xE5\x91\xB3", "<&>\"'", "\xF0\x9F\x8E\xB8"}) {
        CHECK(printable(s) == s);
        CHECK(is_utf8(s));
    }
}
TEST_CASE("what acts instead of showing is replaced") {
    CHECK(printable("a\x1b[31mb") == "a" + bad + "[31mb");
    CHECK(printable(std::string("a\0b", 3)) == "a" + bad + "b");
    CHECK(printable("a\x7f") == "a" + bad);
    CHECK(printable("a\xC2\x9B"
                    "b") == "a" + bad + "b"); // C1 control
    CHECK(printable("a\xE2\x80\xAE"
                    "b") == "a" + bad + "b"); // right-to-left override
    CHECK(printable("\xEF\xBB\xBF"
                    "a") == bad + "a");      // byte order mark
    CHECK(printable("\xEF\xBF\xBF") == bad); // U+FFFF, not allowed in XML
    CHECK(printable("one\ttwo\r\nthree") == "one two  three");
}
TEST_CASE("what is not UTF-8 is replaced (RFC 3629)") {
    CHECK(printable("\xC0\xAF") == bad + bad);                     // overlong
    CHECK(printable("\xED\xA0\x80") == bad + bad + bad);           // surrogate
    CHECK(printable("\xF4\x90\x80\x80") == bad + bad + bad + bad); // past U+10FFFF
    CHECK(printable("a\xE2\x82") == "a" + bad + bad);              // cut short
    CHECK(printable("\xFF"
                    "a\x80") == bad + "a" + bad);
}
TEST_CASE("long texts are cut at a character") {
    CHECK(printable("abcdef", 6) == "abcdef");
    CHECK(printable("abcdefg", 6) == "abcde\xE2\x80\xA6");
    CHECK(printable("\xC3\xA1\xC3\xA1\xC3\xA1", 2) == "\xC3\xA1\xE2\x80\xA6");
    CHECK(drawing::character_count("\xC3\xA1"
                                   "b\xE2\x80\xA6") == 3);
    CHECK(drawing::first_characters("\xC3\xA1"
                                    "b\xE2\x80\xA6",
                                    2) == "\xC3\xA1"
                                          "b");
}
TEST_CASE("any bytes become UTF-8 without controls") {
    std::mt19937 random(7);
    for (int round = 0; round < 2000; ++round) {
        std::string bytes;
        const std::size_t size = random() % 40;
        // Half of them mostly lead and continuation bytes, which reach the deeper branches.
        for (std::size_t k = 0; k < size; ++k) {
            bytes += static_cast<char>(round % 2 == 0 ? random() % 256 : 0x80 + random() % 0x78);
        }
        const std::string shown = printable(bytes, 25);
        CHECK(is_utf8(shown));
        CHECK(drawing::character_count(shown) <= 25);
        for (const char c : shown) { CHECK((static_cast<unsigned char>(c) >= 0x20 && c != 0x7f)); }
        CHECK(printable(shown, 25) == shown);
    }
}
