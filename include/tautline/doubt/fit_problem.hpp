#pragma once
/// @file
/// What a fit of inputs and readings starts from, and what it ends with.

#include <cstdint>

#include "covariance_root.hpp"

namespace tautline {

/// What is known before a fit: how the inputs may err, what was read, how the readings may err, and how far each input
/// may go. An input is told by `t`, its change from what was read.
template <std::floating_point R = double>
struct basic_fit_problem {
    basic_matrix<R> root{};         ///< L: a row for each input, a column for each cause (`covariance_root`)
    basic_matrix<R> reading_root{}; ///< Lambda: a row and a column for each reading (`reading_root`)
    std::vector<R> readings{};      ///< y
    std::vector<R> least{};         ///< least value of each t; empty: no limits
    std::vector<R> most{};          ///< greatest value of each t; empty: no limits
};
using fit_problem = basic_fit_problem<double>;

/// What a model says of the readings at a state, and how that changes along directions of the state.
template <std::floating_point R = double>
struct basic_modelled {
    std::vector<R> values{};  ///< h
    basic_matrix<R> slopes{}; ///< derivative of each value along each direction
};
using modelled = basic_modelled<double>;

/// How a fit is done.
struct fit_settings {
    int most_steps = 50;      ///< steps after which it gives up
    double least_step = 1e-7; ///< settled when a step moves every cause by less than this, in its doubt before
    /// Robust fit: a reading with |residual| above `1.5 v`, v its doubt, counts with the weight `1.5 v/|residual|`.
    bool huber = false;
};

/// How a fit ended.
enum class fit_end {
    settled,        ///< at the minimum
    stuck,          ///< the model refuses every state further down
    too_many_steps, ///< the last state is given
};

/// The limit that an input ended at.
enum class fit_edge : std::int8_t { none, least, most };

/// The state that a fit found.
template <std::floating_point R = double>
struct basic_weighted_fit {
    basic_fit_problem<R> problem{}; ///< the problem as given
    std::vector<R> z{};             ///< the state in causes, each of doubt 1
    std::vector<R> t{};             ///< the state, `L z`
    std::vector<R> values{};        ///< h there
    basic_matrix<R> slopes{};       ///< of h along the columns of L there
    basic_matrix<R> by_input{};     ///< derivatives of h by each input there
    std::vector<R> weights{};       ///< of the readings; 1 unless `huber`
    std::vector<R> first_step{};    ///< t after one undamped step, as if the model were linear
    std::vector<fit_edge> edges{};  ///< limits that inputs ended at
    R cost{};                       ///< the minimum itself, with readings weighted
    int steps = 0;                  ///< steps taken or tried
    /// How the fit ended.
    fit_end end = fit_end::too_many_steps;
};
using weighted_fit = basic_weighted_fit<double>;

} // namespace tautline
