#pragma once
/// @file
/// Drawings read back from their files, in millimetres of paper: strokes from SVG, and PDF through poppler's programs,
/// which share nothing with what drew them.

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <numbers>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include <sys/wait.h>

#include <paper.hpp>

#include "scratch_folder.hpp"

namespace drawn {

/// What a program of the system prints, or nothing where it failed.
inline std::string output_of(const std::string& command) {
    FILE* pipe = popen((command + " 2>/dev/null").c_str(), "r");
    if (pipe == nullptr) { return {}; }
    std::string out;
    char buffer[4096];
    for (std::size_t got = 0; (got = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) { out.append(buffer, got); }
    return pclose(pipe) == 0 ? out : std::string();
}
inline bool succeeds(const std::string& command) { return std::system((command + " >/dev/null 2>&1").c_str()) == 0; }

/// One stroke: its corners and its width, mm.
struct stroke {
    std::vector<drawing::place> points{};
    double width = 0;
    bool dashed = false;

    [[nodiscard]] bool is_line() const { return points.size() == 2; }
    [[nodiscard]] double length() const {
        return std::hypot(points.back().x - points.front().x, points.back().y - points.front().y);
    }
    [[nodiscard]] bool upright() const { return is_line() && std::abs(points[0].x - points[1].x) < 0.005; }
    [[nodiscard]] bool level() const { return is_line() && std::abs(points[0].y - points[1].y) < 0.005; }
};

inline std::string attribute(const std::string& element, const std::string& name) {
    const auto at = element.find(" " + name + "=\"");
    if (at == std::string::npos) { return {}; }
    const auto from = at + name.size() + 3;
    return element.substr(from, element.find('"', from) - from);
}

/// Every stroke of an SVG file that poppler wrote, whose user unit is a point, in the order they were drawn.
inline std::vector<stroke> strokes_of_points(const std::string& svg) {
    constexpr double mm_a_point = 25.4 / 72;
    std::vector<stroke> found;
    for (auto at = svg.find("<path"); at != std::string::npos; at = svg.find("<path", at + 1)) {
        const std::string element = svg.substr(at, svg.find('>', at) - at), style = attribute(element, "style");
        const auto width_at = style.find("stroke-width:");
        if (width_at == std::string::npos || style.find("stroke:rgb") == std::string::npos) { continue; }
        double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
        const std::string transform = attribute(element, "transform");
        if (!transform.empty()) {
            std::sscanf(transform.c_str(), "matrix(%lf,%lf,%lf,%lf,%lf,%lf)", &a, &b, &c, &d, &e, &f);
        }
        stroke s;
        s.width = std::atof(style.c_str() + width_at + 13) * std::hypot(a, b) * mm_a_point;
        s.dashed = style.find("stroke-dasharray") != std::string::npos;
        std::istringstream words(attribute(element, "d"));
        std::vector<double> numbers;
        // cairo ends each path by moving to its start again.
        const auto take = [&] {
            for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) {
                const double x = a * numbers[i] + c * numbers[i + 1] + e, y = b * numbers[i] + d * numbers[i + 1] + f;
                s.points.push_back({x * mm_a_point, y * mm_a_point});
            }
            numbers.clear();
        };
        std::string word;
        for (bool moved = false; words >> word;) {
            if (word == "M") {
                if (moved) { break; }
                moved = true;
            } else if (std::isalpha(static_cast<unsigned char>(word[0])) == 0) {
                numbers.push_back(std::stod(word));
            }
        }
        take();
        if (s.points.size() >= 2) { found.push_back(s); }
    }
    return found;
}

/// An element of the project's own SVG, whose user unit is a millimetre, and how far its places are from the page's: nested
/// windows move them.
struct element {
    std::string tag{}; ///< with its attributes
    drawing::place shift{};
    std::string words{}; ///< up to the next tag
};
inline std::vector<element> elements_of(const std::string& svg) {
    std::vector<element> found;
    std::vector<drawing::place> shifts;
    for (auto at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
        const auto end = svg.find('>', at);
        const std::string tag = svg.substr(at, end - at);
        if (tag.rfind("<svg", 0) == 0) {
            double x = 0, y = 0;
            std::sscanf(attribute(tag, "viewBox").c_str(), "%lf %lf", &x, &y);
            const drawing::place before = shifts.empty() ? drawing::place{} : shifts.back();
            shifts.push_back({before.x + std::atof(attribute(tag, "x").c_str()) - x,
                              before.y + std::atof(attribute(tag, "y").c_str()) - y});
        } else if (tag.rfind("</svg", 0) == 0) {
            shifts.pop_back();
        } else if (!shifts.empty() && tag[1] != '/' && tag[1] != '?' && tag[1] != '!') {
            found.push_back({tag, shifts.back(), svg.substr(end + 1, svg.find('<', end) - end - 1)});
        }
    }
    return found;
}
/// The lines of a path's data, each from a move to the next.
inline std::vector<std::vector<drawing::place>> lines_in(const std::string& d, drawing::place shift) {
    std::vector<std::vector<drawing::place>> lines;
    const char* at = d.c_str();
    while (*at != 0) {
        const char what = *at++;
        if (what == 'Z') { continue; }
        if (what == 'M') { lines.emplace_back(); }
        char* next = nullptr;
        const double x = std::strtod(at, &next), y = std::strtod(next, &next);
        at = next;
        lines.back().push_back({x + shift.x, y + shift.y});
    }
    return lines;
}
/// Every stroke of the project's own SVG, in the order they were drawn; circles as cairo writes them, by twelve points and
/// the first again, the rightmost first.
inline std::vector<stroke> strokes_of(const std::string& svg) {
    std::vector<stroke> found;
    for (const element& e : elements_of(svg)) {
        if (attribute(e.tag, "stroke-width").empty()) { continue; }
        const double width = std::atof(attribute(e.tag, "stroke-width").c_str());
        const bool dashed = !attribute(e.tag, "stroke-dasharray").empty();
        if (e.tag.rfind("<circle", 0) == 0) {
            const double x = std::atof(attribute(e.tag, "cx").c_str()) + e.shift.x,
                         y = std::atof(attribute(e.tag, "cy").c_str()) + e.shift.y,
                         r = std::atof(attribute(e.tag, "r").c_str());
            stroke s{{}, width, dashed};
            for (int k = 0; k <= 12; ++k) {
                s.points.push_back(
                    {x + r * std::cos(k * std::numbers::pi / 6), y + r * std::sin(k * std::numbers::pi / 6)});
            }
            found.push_back(s);
            continue;
        }
        for (const auto& line : lines_in(attribute(e.tag, "d"), e.shift)) {
            if (line.size() >= 2) { found.push_back({line, width, dashed}); }
        }
    }
    return found;
}
/// A line of letters of the project's own SVG: where it starts, mm, and the words as they stand in the file.
struct written_line {
    drawing::place start{};
    std::string words{};
    double width = 0, size = 0;
    bool upward = false;
};
inline std::vector<written_line> lines_of(const std::string& svg) {
    std::vector<written_line> found;
    for (const element& e : elements_of(svg)) {
        if (e.tag.rfind("<text", 0) != 0) { continue; }
        const auto number = [&](const char* name) { return std::atof(attribute(e.tag, name).c_str()); };
        found.push_back({{number("x") + e.shift.x, number("y") + e.shift.y},
                         e.words,
                         number("textLength"),
                         number("font-size"),
                         !attribute(e.tag, "transform").empty()});
    }
    return found;
}

/// The strokes of a page of a PDF file, by poppler; lengths as the PDF has them, the page's corner may be cropped away.
inline std::vector<stroke> strokes_of_pdf(const std::filesystem::path& pdf, int page) {
    const std::string number = std::to_string(page);
    return strokes_of_points(
        output_of("pdftocairo -svg -noshrink -f " + number + " -l " + number + " '" + pdf.string() + "' -"));
}

} // namespace drawn
