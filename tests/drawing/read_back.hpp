#pragma once
/// @file
/// Drawings read back from their files, in millimetres of paper: strokes from SVG, and PDF through poppler's programs,
/// which share nothing with what drew them.

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
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

/// Every stroke of an SVG file whose user unit is a point, in the order they were drawn.
inline std::vector<stroke> strokes_of(const std::string& svg) {
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

/// The strokes of a page of a PDF file, by poppler; lengths as the PDF has them, the page's corner may be cropped away.
inline std::vector<stroke> strokes_of_pdf(const std::filesystem::path& pdf, int page) {
    const std::string number = std::to_string(page);
    return strokes_of(output_of("pdftocairo -svg -noshrink -f " + number + " -l " + number + " '" + pdf.string() + "' -"));
}

} // namespace drawn
