#pragma once
/// @file
/// A few small line plots side by side, as SVG.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

namespace neck_relief {

struct mark {
    double x = 0, y = 0;
    double half_bar = 0; ///< expanded uncertainty; 0 draws none
    std::string name{};  ///< on the x axis in place of its number
};
struct panel {
    std::string title{}, x_axis{};
    std::vector<mark> marks{};
    bool line = true; ///< between the marks
};

/// Plots with one common y axis from 0 (or below) up.
class plot {
public:
    explicit plot(std::string y_axis) : y_axis_(std::move(y_axis)) {}
    void add(panel p) { panels_.push_back(std::move(p)); }

    [[nodiscard]] std::string svg() const {
        const double width = left + static_cast<double>(panels_.size()) * (across + gap), height = top + high + 52;
        double low = 0, most = 0;
        for (const auto& p : panels_) {
            for (const auto& m : p.marks) {
                low = std::min(low, m.y - m.half_bar);
                most = std::max(most, m.y + m.half_bar);
            }
        }
        low = std::floor(low * 10) / 10;
        most = std::ceil(most * 10) / 10;
        const auto y_at = [&](double y) { return top + high * (most - y) / (most - low); };
        std::string out =
            element("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" width=\"%.0f\" height=\"%.0f\" "
                    "font-family=\"sans-serif\" font-size=\"11\">\n",
                    width, height, width, height);
        out += element("<rect width=\"%.0f\" height=\"%.0f\" fill=\"white\"/>\n", width, height);
        out += element("<text x=\"14\" y=\"%.1f\" transform=\"rotate(-90 14 %.1f)\" text-anchor=\"middle\">",
                       top + high / 2, top + high / 2) +
               y_axis_ + "</text>\n";
        for (std::size_t i = 0; i < panels_.size(); ++i) {
            const double x0 = left + static_cast<double>(i) * (across + gap);
            const int steps = static_cast<int>(std::lround((most - low) * 10));
            for (int k = 0; k <= steps; ++k) {
                const double y = low + k * 0.1;
                out += element("<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\"/>\n", x0, y_at(y),
                               x0 + across, y_at(y), std::abs(y) < 1e-9 ? "#555" : "#ddd");
                if (i == 0) {
                    out += element("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">%.1f</text>\n", x0 - 6, y_at(y) + 4, y);
                }
            }
            out += drawn(panels_[i], x0, y_at);
        }
        return out + "</svg>\n";
    }

private:
    static constexpr double left = 52, top = 30, across = 190, high = 170, gap = 26;

    template <class Y>
    static std::string drawn(const panel& p, double x0, Y y_at) {
        std::string out = "<text x=\"" + std::to_string(x0) + "\" y=\"18\" font-weight=\"bold\">" + p.title + "</text>\n";
        double from = p.marks.front().x, to = from;
        for (const auto& m : p.marks) {
            from = std::min(from, m.x);
            to = std::max(to, m.x);
        }
        const auto x_at = [&](double x) { return x0 + 26 + (across - 52) * (x - from) / (to - from); };
        std::string line;
        for (const auto& m : p.marks) {
            const double x = x_at(m.x);
            line += element("%.1f,%.1f ", x, y_at(m.y));
            if (m.half_bar > 0) {
                out +=
                    element("<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#999\" stroke-width=\"2\"/>\n",
                            x, y_at(m.y - m.half_bar), x, y_at(m.y + m.half_bar));
            }
            out += element("<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3.2\" fill=\"#1f4e79\"/>\n", x, y_at(m.y));
            out += element("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\">", x, top + high + 16) +
                   (m.name.empty() ? element("%g", m.x) : m.name) + "</text>\n";
        }
        if (p.line) { out += "<polyline points=\"" + line + "\" fill=\"none\" stroke=\"#1f4e79\"/>\n"; }
        return out +
               element("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\" fill=\"#555\">", x0 + across / 2,
                       top + high + 36) +
               p.x_axis + "</text>\n";
    }
    template <class... Values>
    static std::string element(const char* form, Values... values) {
        char buffer[400];
        std::snprintf(buffer, sizeof buffer, form, values...);
        return buffer;
    }

    std::string y_axis_;
    std::vector<panel> panels_{};
};

} // namespace neck_relief
