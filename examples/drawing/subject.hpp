#pragma once
/// @file
/// What is drawn: an instrument, its strings and the setup they were solved to.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <tautline/board/fan.hpp>
#include <tautline/board/markers.hpp>
#include <tautline/doubt/read_heights.hpp>
#include <tautline/job/bench_step.hpp>
#include <tautline/job/first_cut.hpp>
#include <tautline/job/height_wishes.hpp>

#include "canvas.hpp"
#include "measures.hpp"

namespace drawing {

/// An instrument with its strings, and the setup that they come to.
struct subject {
    tl::instrument instrument;
    tl::stringing stringing{};
    tl::setup setup;
    /// Slanted frets, where the board has them: templates then take the frets from here.
    std::optional<tl::fan> fan{};
    /// Where action is told; absent: as tautline::action_fret says.
    std::optional<int> action_fret{};
    std::vector<tl::read_height> read{}; ///< readings of this state; its strings' lines are drawn through them
    bool left_handed = false;            ///< templates are then drawn as its mirror image lies on the bench
    tl::marker_layout dots{};            ///< which frets get dots, and where these lie
    /// How the number of a path is told to who works to it: of a result, or of a nut slot or a saddle. Empty: with all
    /// decimals.
    std::function<tl::bench_rounding(const std::string&)> told{};
    tl::first_cuts first{}; ///< how much higher slots and saddle are left at first

    /// The same, told with all decimals where nothing is known.
    [[nodiscard]] tl::bench_rounding told_as(const std::string& path) const {
        return told && !path.empty() ? told(path) : tl::bench_rounding{};
    }
};

/// What stands on every drawing.
struct heading {
    std::string title{}; ///< may come from anywhere
    drawing::paper paper = drawing::paper::a4;
    drawing::measures measures = drawing::measures::metric;
};

/// A drawing of one or more pages.
struct sheets {
    std::string name{}; ///< of its files
    std::vector<page> pages{};
};

/// Number and note of a string as the trade writes them: "6 E2". Strings are counted from 0 and the bass here.
[[nodiscard]] inline std::string string_label(const subject& s, std::size_t i) { return s.setup.names.label(i); }

/// What every drawing says about itself.
inline constexpr const char* caution = "Estimates from measurements: where a failure would hurt someone or spoil an "
                                       "instrument of value, a qualified repairer decides.";

} // namespace drawing
