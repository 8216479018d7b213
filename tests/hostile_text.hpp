#pragma once
/// @file
/// Characters that act or hide instead of being seen, one by one and in one name: what no output of a program may hold.

#include <cstdint>
#include <cstdio>
#include <string>
#include <utility>
#include <vector>

namespace hostile {

/// A code point in UTF-8 (RFC 3629).
inline std::string utf8(std::uint32_t c) {
    const auto byte = [](std::uint32_t b) { return static_cast<char>(b); };
    if (c < 0x80) { return {byte(c)}; }
    if (c < 0x800) { return {byte(0xc0 | c >> 6U), byte(0x80 | (c & 0x3fU))}; }
    if (c < 0x10000) { return {byte(0xe0 | c >> 12U), byte(0x80 | (c >> 6U & 0x3fU)), byte(0x80 | (c & 0x3fU))}; }
    return {byte(0xf0 | c >> 18U), byte(0x80 | (c >> 12U & 0x3fU)), byte(0x80 | (c >> 6U & 0x3fU)),
            byte(0x80 | (c & 0x3fU))};
}

/// Controls (ISO 6429: C0, delete, C1), the directional marks, embeddings, overrides and isolates (Unicode Standard Annex
/// 9, table of explicit formatting characters), and characters without width (Unicode names: zero width space, non-joiner
/// and joiner, word joiner, zero width no-break space).
inline std::vector<std::uint32_t> characters() {
    std::vector<std::uint32_t> all;
    const std::pair<std::uint32_t, std::uint32_t> ranges[] = {{0x01, 0x1f},     {0x7f, 0x9f},     {0x061c, 0x061c},
                                                              {0x200e, 0x200f}, {0x202a, 0x202e}, {0x2066, 0x2069},
                                                              {0x200b, 0x200d}, {0x2060, 0x2060}, {0xfeff, 0xfeff}};
    for (const auto& [from, to] : ranges) {
        for (std::uint32_t c = from; c <= to; ++c) { all.push_back(c); }
    }
    return all;
}

/// A name with all of them in it, letters between.
inline std::string name() {
    std::string all = "n";
    for (const auto c : characters()) { all += utf8(c) + "o"; }
    return all;
}
/// The same name as a TOML file may write it.
inline std::string name_in_toml() {
    std::string all = "n";
    for (const auto c : characters()) {
        char escape[16];
        std::snprintf(escape, sizeof escape, "\\u%04xo", static_cast<unsigned>(c));
        all += escape;
    }
    return all;
}
/// The same name as every output shows it: each byte of them written out.
inline std::string name_shown() {
    std::string all = "n";
    for (const auto c : characters()) {
        for (const char byte : utf8(c)) {
            char escape[8];
            std::snprintf(escape, sizeof escape, "\\x%02x", static_cast<unsigned>(static_cast<unsigned char>(byte)));
            all += escape;
        }
        all += 'o';
    }
    return all;
}

/// Whether a text holds any of them but line ends.
inline bool is_in(const std::string& text) {
    for (const auto c : characters()) {
        if (c != '\n' && c != '\r' && text.find(utf8(c)) != std::string::npos) { return true; }
    }
    return false;
}

} // namespace hostile
