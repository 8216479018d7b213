#pragma once
/// @file
/// What the page is answered: the same answers in a browser and in a program.

#include <string>
#include <string_view>

#include "question.hpp"

namespace page {

/// The answer to a question as JSON; where the input is wrong, `{"wrong": [{"field": ..., "sentence": ...}]}`.
/// Never throws.
[[nodiscard]] std::string answer(std::string_view asked);

// The parts of it. Each throws tautline::invalid_input for bad input.

/// What there is to choose from: materials, instruments.
[[nodiscard]] std::string choices();
/// Tension by gauge and note.
[[nodiscard]] std::string tension_table(const question& q);
/// One tension of it with its formula.
[[nodiscard]] std::string tension_cell(const question& q);
/// The sliders of a ready-made instrument.
[[nodiscard]] std::string sliders(const question& q);
/// An instrument in two states, "kept" and "now": drawn, and in numbers.
[[nodiscard]] std::string two_states(const question& q);
/// How one number was made and what moves it.
[[nodiscard]] std::string why(const question& q);
/// The page of a job file, or what is wrong with the file.
[[nodiscard]] std::string job_sheet(const question& q);
/// A job file to begin with.
[[nodiscard]] std::string starting_job(const question& q);

/// How often an instrument was solved, and how often a number was explained, since the page was opened.
struct work_counts {
    long solves = 0, explanations = 0;
};
[[nodiscard]] work_counts& counts();

} // namespace page
