#pragma once
/// @file
/// What a fit of inputs and readings starts from and what it ends with.

#include <cstdint>

#include "covariance_root.hpp"

namespace tautline {

/// What is known before: how the inputs may err, what was read and how that may err, and how far each input may go.
/// Inputs are told as `t`, their change from what was read.
template <std::floating_point R = double>
struct basic_fit_problem {
    basic_matrix<R> root{};         ///< L: a row for each input, a column for each cause (`covariance_root`)
    basic_matrix<R> reading_root{}; ///< Lambda: a row and a column for each reading (`reading_root`)
    std::vector<R> readings{};      ///< y
    std::vector<R> least{};         ///< the least that each t may be; none: no limits
    std::vector<R> most{};          ///< the most
};
using fit_problem = basic_fit_problem<double>;

/// What a model says of the readings at a state, and how that changes along directions of the state.
template <std::floating_point R = double>
struct basic_modelled {
    std::vector<R> values{};  ///< h
    basic_matrix<R> slopes{}; ///< derivative of each value along each direction
};
using modelled = basic_modelled<double>;

/// How a fit is made.
struct fit_settings {
    int most_steps = 50;      ///< then it is given up
    double least_step = 1e-7; ///< a step is none that moves no cause by more, in its doubt before
    /// Readings that lie far out count less: by `1.5 v/|residual|` where that is below 1.
    bool huber = false;
};

/// How a fit ended.
enum class fit_end {
    settled,        ///< at the least
    stuck,          ///< what lies further on the way down the model refuses
    too_many_steps, ///< the last state is told
};

/// Which limit an input ended at.
enum class fit_edge : std::int8_t { none, least, most };

/// The state found.
template <std::floating_point R = double>
struct basic_weighted_fit {
    basic_fit_problem<R> problem{}; ///< as it was asked
    std::vector<R> z{};             ///< the state in causes of doubt 1
    std::vector<R> t{};             ///< the state, `L z`
    std::vector<R> values{};        ///< h there
    basic_matrix<R> slopes{};       ///< of h along the columns of L there
    basic_matrix<R> by_input{};     ///< of h by each input there
    std::vector<R> weights{};       ///< of the readings: 1 unless `huber`
    std::vector<R> first_step{};    ///< t after one step without damping, as if the model were straight
    std::vector<fit_edge> edges{};  ///< inputs that ended at a limit
    R cost{};                       ///< the least itself, readings weighted
    int steps = 0;                  ///< taken or tried
    /// How it ended.
    fit_end end = fit_end::too_many_steps;
};
using weighted_fit = basic_weighted_fit<double>;

} // namespace tautline
