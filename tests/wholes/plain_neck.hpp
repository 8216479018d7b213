#pragma once
/// @file
/// A neck bent once more, by another method than the library's: the bow is guessed, the moments of the bowed neck are taken
/// from where strings, neutral axis and rod then are, and integrated twice for the next guess, until nothing moves.
/// Sections are taken from the board's own surface at every place.
///
/// Euler and Bernoulli's beam: `w'' = M/EI`, `M(x) = sum T (z_string - z_na) - P (z_na - z_rod)`, all in their places under
/// load. A rod that runs free keeps the straight line between its anchors; an anchor in the head rides on the head, one
/// past the joint stays with the body.

#include <vector>

#include <tautline/neck/section.hpp>

#include "plain_geometry.hpp"

namespace wholes {

/// A string as the neck feels it: its pull along x, the height of its axis at a nut that has not moved, and at the saddle.
/// The nut's end lies at `x_nut` and rides on the neck there; the neck takes the line as if it went on to its own end.
struct plain_pull {
    double along = 0, z_nut = 0, z_saddle = 0, x_saddle = 0, x_nut = 0;
};

/// A bow: rise and slope where it was worked out, from the nut to the joint.
struct plain_bow {
    std::vector<double> x{}, w{}, slope{};
    double first_order_rise = 0; ///< of the nut, the load taken on the neck that is not bowed
    double parts = 0;            ///< what strings and rod would each raise or lower the nut by, taken together without sign
    bool settled = false;        ///< whether guess and answer agree

    [[nodiscard]] double rise() const { return w.front(); }
    /// Straight on before the nut, 0 past the joint.
    [[nodiscard]] double at(double x_there) const;
};

/// Section of a neck at a place.
struct plain_section {
    double rigidity = 0, neutral_axis = 0;
    double free_bend = 0; ///< curvature without load: a board that has grown, tangs that wedge
};

class plain_neck {
public:
    plain_neck(const whole& w, const plain_geometry& g);

    [[nodiscard]] double joint() const { return joint_; }
    /// @param side a place of the stretch that is meant where x is a break
    [[nodiscard]] plain_section section(double x, double side) const;
    [[nodiscard]] plain_section section(double x) const { return section(x, x); }
    /// The bow under these strings and the rod as it is set, creep included.
    [[nodiscard]] plain_bow bowed(const std::vector<plain_pull>& pulls) const;
    /// Moment of strings and rod about the neutral axis of a place on a neck bowed so.
    /// @param rod_on whether the rod runs through the place: at its ends there is a side where it does and one where not
    [[nodiscard]] double moment(const std::vector<plain_pull>& pulls, double x, const plain_section& there, bool rod_on,
                                const plain_bow& bow) const;
    /// Places where something begins, ends or kinks, the nut and the joint.
    [[nodiscard]] std::vector<double> breaks() const;
    /// Whether the rod runs between two breaks.
    [[nodiscard]] bool rod_between(double from, double to) const;

private:
    /// The bay between two slots that a place lies in.
    struct bay {
        bool slotted = false;
        double kept = 1;   ///< of its modulus by the board's top
        double strain = 0; ///< by which that top wants to be longer
    };
    [[nodiscard]] bay bay_at(double side) const;
    /// The back at a place: its depth, and its area and moments over those of the rectangle around it.
    struct back_there {
        double depth = 0;
        tautline::back_shape shape{};
    };
    [[nodiscard]] back_there back_at(double x) const;

    /// Where the neck is looked at: three places a step between breaks; a break's place comes once for each side.
    struct place {
        double x = 0, half_step = 0;
        plain_section there{};
        bool rod_on = false;
    };

    const whole& whole_;
    const plain_geometry& geometry_;
    double joint_ = 0;
    std::vector<place> places_{};
};

} // namespace wholes
