#include "own_mark.hpp"

#include <algorithm>
#include <array>
#include <fstream>

namespace drawing {

namespace {

constexpr std::string_view png_keyword = "Software"; // W3C, Portable Network Graphics, 11.3.4.2
constexpr std::size_t png_head = 8 + 25;             // signature and IHDR, always of that size

std::string big_endian(std::uint32_t v) {
    std::string out;
    for (const unsigned shift : {24U, 16U, 8U, 0U}) { out += static_cast<char>(v >> shift & 0xffU); }
    return out;
}
/// A chunk of text: size, kind, keyword, a zero byte, text, and the checksum of all but the size.
std::string png_text() {
    std::string data(png_keyword);
    data += '\0';
    data += own_mark;
    const std::string chunk = "tEXt" + data;
    return big_endian(static_cast<std::uint32_t>(data.size())) + chunk + big_endian(crc32(chunk));
}
std::string comment_in_svg() { return "<!-- " + std::string(own_mark) + " -->\n"; }
std::string comment_in_pdf() { return "% " + std::string(own_mark) + "\n"; }

} // namespace

bool is_drawing_name(std::string_view name) {
    const std::size_t dot = name.rfind('.');
    if (dot == std::string_view::npos) { return false; }
    constexpr std::array<std::string_view, 3> ends{".pdf", ".svg", ".png"}, begins{"side_view", "buzz_map", "templates"};
    if (std::find(ends.begin(), ends.end(), name.substr(dot)) == ends.end()) { return false; }
    name = name.substr(0, dot);
    const auto begin = std::find_if(begins.begin(), begins.end(), [&](auto b) { return name.starts_with(b); });
    if (begin == begins.end()) { return false; }
    name.remove_prefix(begin->size());
    return name.empty() ||
           (name.size() > 1 && name[0] == '_' && name.find_first_not_of("0123456789", 1) == std::string_view::npos);
}

std::string marked_pdf(std::string bytes) {
    // A comment between the trailer and "startxref" moves no offset that the file gives.
    const std::size_t at = bytes.rfind("startxref");
    return at == std::string::npos ? bytes : bytes.insert(at, comment_in_pdf());
}
std::string marked_svg(std::string bytes) {
    // The mark follows the XML declaration, which must come first.
    const std::size_t line = bytes.starts_with("<?xml") ? bytes.find('\n') : std::string::npos;
    return bytes.insert(line == std::string::npos ? 0 : line + 1, comment_in_svg());
}
std::string marked_png(std::string bytes) { return bytes.size() < png_head ? bytes : bytes.insert(png_head, png_text()); }

bool is_marked(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) { return false; }
    std::ifstream in(file, std::ios::binary);
    constexpr std::streamoff where_it_is = 1024; // the mark lies at one end of the file, well within this many bytes
    std::string bytes(static_cast<std::size_t>(where_it_is), '\0');
    const auto extension = file.extension();
    if (extension == ".pdf") {
        in.seekg(0, std::ios::end);
        in.seekg(-std::min<std::streamoff>(in.tellg(), where_it_is), std::ios::end);
    }
    in.read(bytes.data(), where_it_is);
    bytes.resize(static_cast<std::size_t>(std::max<std::streamsize>(in.gcount(), 0)));
    const std::string wanted = extension == ".pdf" ? comment_in_pdf() : extension == ".svg" ? comment_in_svg() : png_text();
    return bytes.find(wanted) != std::string::npos;
}

std::uint32_t crc32(std::string_view bytes) {
    std::uint32_t crc = 0xffffffffU;
    for (const char c : bytes) {
        crc ^= static_cast<unsigned char>(c);
        for (int bit = 0; bit < 8; ++bit) { crc = crc >> 1U ^ ((crc & 1U) != 0 ? 0xedb88320U : 0U); }
    }
    return ~crc;
}

} // namespace drawing
