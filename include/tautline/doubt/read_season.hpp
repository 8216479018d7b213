#pragma once
/// @file
/// The season of an instrument that is read in several airs. Readings of two visits determine its coefficients.

#include "../setup/season.hpp"

namespace tautline {

/// The air that an instrument is described in, and what 1 % more moisture in its wood does to it. The coefficients are
/// first guesses until readings in other airs determine them. Members are like those of `basic_season_response`.
template <class R = double>
struct basic_read_season {
    using real = R;
    basic_noted_air<R> measured_in{};                   ///< of the instrument at pitch, and of states without their own air
    R bow = number<R>(0);                               ///< growth of the board along the grain beyond that of the back,
                                                        ///< as a share of its length
    field<length<R>> top = length<R>();                 ///< rise of the saddle over the board's line
    R stiffness = basic_season_response<R>{}.stiffness; ///< share by which the neck's stiffness grows

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("measured_in", self.measured_in...);
        visit("bow", between(-most_season_bow, most_season_bow).fair_default("unmeasured"), self.bow...);
        visit("top", between(-most_season_top * units::metre, most_season_top * units::metre).fair_default("unmeasured"),
              self.top...);
        visit("stiffness", between(-0.05, 0.05).fair_default("softer wood less a larger section"), self.stiffness...);
    }
    /// The coefficients as a season takes them.
    [[nodiscard]] basic_season_response<R> response() const { return {.bow = bow, .top = top, .stiffness = stiffness}; }
    /// How much more moisture the wood comes to hold in another air, in per cent of its dry mass.
    [[nodiscard]] R gained_in(const basic_noted_air<R>& air) const {
        return kernel::equilibrium_moisture(air.climate()).in_unit() -
               kernel::equilibrium_moisture(measured_in.climate()).in_unit();
    }
};
using read_season = basic_read_season<double>;

namespace kernel {

/// Moistens an instrument for as long as this object lives, and then restores it.
template <class R>
class moist_meanwhile {
public:
    moist_meanwhile(basic_strung_instrument<R>& on, const basic_read_season<R>& season, const basic_noted_air<R>& air)
        : on_(on.instrument), strain_(on_.neck.board_strain), board_(on_.neck.board_modulus), back_(on_.neck.back_modulus),
          line_(on_.saddle.board_line) {
        moisten(on, season.response(), season.gained_in(air));
    }
    moist_meanwhile(const moist_meanwhile&) = delete;
    moist_meanwhile& operator=(const moist_meanwhile&) = delete;
    ~moist_meanwhile() {
        on_.neck.board_strain = strain_;
        on_.neck.board_modulus = board_;
        on_.neck.back_modulus = back_;
        on_.saddle.board_line = line_;
    }

private:
    basic_instrument<R>& on_;
    R strain_;
    stress<R> board_, back_;
    length<R> line_;
};

} // namespace kernel

} // namespace tautline
