#pragma once
/// @file
/// The answers to the page. They are the same in a browser and in a program.

#include <string>
#include <string_view>

#include "question.hpp"

namespace page {

/// The answer to a question as JSON. Wrong input gives `{"wrong": [{"field": ..., "sentence": ...}]}`.
/// Never throws.
[[nodiscard]] std::string answer(std::string_view asked);

// The answers by question. Each function throws tautline::invalid_input for bad input.

/// The choices of the page: materials and instruments.
[[nodiscard]] std::string choices();
/// The table of tensions by gauge and note.
[[nodiscard]] std::string tension_table(const question& q);
/// One tension of that table, with its formula.
[[nodiscard]] std::string tension_cell(const question& q);
/// The sliders of a ready-made instrument.
[[nodiscard]] std::string sliders(const question& q);
/// An instrument in two states, "kept" and "now": drawings and numbers.
[[nodiscard]] std::string two_states(const question& q);
/// The formula of one number, and the inputs that move it.
[[nodiscard]] std::string why(const question& q);
/// The page of a job file, or the mistakes in the file.
[[nodiscard]] std::string job_sheet(const question& q);
/// A job file to start with.
[[nodiscard]] std::string starting_job(const question& q);

/// Counts since the page was opened: instruments solved, and numbers explained.
struct work_counts {
    long solves = 0, explanations = 0;
};
[[nodiscard]] work_counts& counts();

} // namespace page
