// Text from outside made fit for paper.
#include <random>
#include <string>

#include <iconv.h>

#include <doctest/doctest.h>

#include <text.hpp>

#include "../../examples/text/shown.hpp"
#include "hostile_text.hpp"

using drawing::printable;

namespace {

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
TEST_CASE("what acts or hides instead of being seen is written out") {
    CHECK(printable("a\x1b[31mb") == "a\\x1b[31mb");
    CHECK(printable(std::string("a\0b", 3)) == "a\\x00b");
    CHECK(printable("a\x7f") == "a\\x7f");
    CHECK(printable("one\ttwo\r\nthree") == "one\\x09two\\x0d\\x0athree");
    CHECK(printable("\xEF\xBF\xBF") == "\\xef\\xbf\\xbf"); // U+FFFF, not allowed in XML
    CHECK(printable("\xC2\xAD") == "\\xc2\\xad");          // soft hyphen
    CHECK(printable(hostile::name(), 10000) == hostile::name_shown());
}
TEST_CASE("what is seen is not: every other character of the basic plane but separators, fillers and private ones") {
    std::size_t written_out = 0;
    for (std::uint32_t c = 0; c < 0x10000; ++c) {
        if (c >= 0xd800 && c <= 0xdfff) { continue; } // surrogates are no characters
        written_out += safe_text::shown(hostile::utf8(c)) == hostile::utf8(c) ? 0 : 1;
    }
    // The list, U+0000, soft hyphen, U+180E, U+2028 and 2029, U+2061 to 206F less the four isolates, four fillers, U+FFF0
    // to FFFB, 6400 private ones, 34 that are no characters in this plane: U+FDD0 to FDEF, FFFE and FFFF.
    CHECK(written_out == hostile::characters().size() + 1 + 1 + 1 + 2 + (15 - 4) + 4 + 12 + 6400 + 34);
}
TEST_CASE("what is not UTF-8 is written out (RFC 3629)") {
    CHECK(printable("\xC0\xAF") == "\\xc0\\xaf");                   // overlong
    CHECK(printable("\xED\xA0\x80") == "\\xed\\xa0\\x80");          // surrogate
    CHECK(printable("\xF4\x90\x80\x80") == "\\xf4\\x90\\x80\\x80"); // past U+10FFFF
    CHECK(printable("a\xE2\x82") == "a\\xe2\\x82");                 // cut short
    CHECK(printable("\xFF"
                    "a\x80") == "\\xffa\\x80");
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
        CHECK(!hostile::is_in(shown));
    }
}
