#pragma once
/// @file
/// As found and as planned, side by side: in strokes and in tables.

#include "frame.hpp"

namespace drawing {

/// Both states of a drawing.
struct states {
    const subject& found;
    const subject* planned;

    /// Calls `f(state, pen, is one of two)`, the found one first so that the planned one lies on it.
    template <class F>
    void each(F&& f) const {
        f(found, planned ? found_pen : planned_pen, planned != nullptr);
        if (planned) { f(*planned, planned_pen, false); }
    }
    /// The planned state, or the found one when nothing is planned.
    [[nodiscard]] const subject& latest() const { return planned ? *planned : found; }
};

/// Rows of words with one number for each state. Strings are at pitch.
class state_table {
public:
    state_table(const states& s, measures m);

    /// Adds a row in metric or imperial units, or two rows when both are asked for. "-" stands for a number that a state
    /// lacks.
    /// @param path of the number, where somebody works to it
    void add(const std::string& what, const std::function<std::optional<tl::length<double>>(const subject&)>& number,
             const std::string& path = "");
    void add(const std::string& what, const std::function<tl::force<double>(const subject&)>& number);
    void add(const std::string& what, const std::function<tl::angle<double>(const subject&)>& number);

    void draw(canvas& c, const box& room) const;
    /// The row of heads comes first; words are the first column.
    [[nodiscard]] const std::vector<std::vector<std::string>>& rows() const { return rows_; }

private:
    template <class F>
    void add_row(const std::string& what, F&& text);

    const states& states_;
    measures measures_;
    std::vector<std::vector<std::string>> rows_{};
};

} // namespace drawing
