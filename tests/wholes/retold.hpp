#pragma once
/// @file
/// Every number of a solved setup told a second time, by path: from measures, plain geometry, another neck and the public
/// functions of the folders, never from a member that a solve has filled.

#include <map>
#include <string>

#include <tautline/setup/setup.hpp>

#include "plain_neck.hpp"

namespace wholes {

/// A number as it should be, SI or cents, and how far a solve may be off.
struct told {
    double number = 0;
    double allowed = 0;
    /// Of several places that are alike to the last digits any may be named: numbers that are right too.
    std::vector<double> or_else{};
};

/// Where an instrument comes to rest, and what follows.
struct rest {
    motions at{};                    ///< every motion, loads and geometry in balance
    std::vector<double> tensions{};  ///< of the strings
    std::vector<plain_pull> pulls{}; ///< as the neck feels them
    plain_bow bow{};                 ///< under them
    bool settled = false;
};

/// Top, neck, tailpiece and strings in balance, by repetition.
[[nodiscard]] rest rest_of(const whole& w, const plain_geometry& g, const plain_neck& n);

/// Angle over level at which a hinged tailpiece has no moment about its hinge.
[[nodiscard]] double tailpiece_balance(const plain_geometry& g, const std::vector<double>& tensions, motions m);

/// All numbers by the paths that `describe` gives them; none where the neck buckles.
[[nodiscard]] std::map<std::string, told> retell(const whole& w);

} // namespace wholes
