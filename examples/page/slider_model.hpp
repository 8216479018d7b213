#pragma once
/// @file
/// A ready-made instrument with sliders. The places of the sliders make an instrument to solve. This works in any number
/// type, so that dual numbers find the effect of each slider.

#include <tautline/core/by_path.hpp>
#include <tautline/instrument/ordered_instrument.hpp>
#include <tautline/setup/season.hpp>

namespace page {

namespace tl = tautline;

/// The places of the sliders.
template <class R = double>
struct basic_sliders {
    using real = R;
    R set = tl::number<R>(1);                          ///< factor on all gauges and cores
    R one = tl::number<R>(1);                          ///< factor on the chosen string's gauge and core
    std::optional<tl::field<tl::length<R>>> radius{};  ///< radius of the board, if it has one
    tl::needed<tl::length<R>> crown;                   ///< height of the frets' crowns
    tl::field<tl::length<R>> saddle = tl::length<R>(); ///< how much higher the saddle is than it was made
    std::optional<tl::field<tl::force<R>>> rod{};      ///< pull of the rod, if there is one
    R humidity = tl::number<R>(50);                    ///< humidity of the air, in per cent

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        using namespace tl::units;
        visit("set", tl::between(0.5, 2), self.set...);
        visit("one", tl::between(0.5, 2), self.one...);
        visit("radius", tl::between(60 * mm, 5000 * mm), self.radius...);
        visit("crown", tl::between(0.3 * mm, 3 * mm), self.crown...);
        visit("saddle", tl::between(-10 * mm, 10 * mm), self.saddle...);
        visit("rod", tl::between(0 * N, 10000 * N), self.rod...);
        visit("humidity", tl::between(10, 85), self.humidity...);
    }
};
using slider_places = basic_sliders<double>;

/// The effect of 1 % of moisture on the instruments of the page. It is invented: half of the doubt that the library has
/// for an unmeasured neck and top. A solid body has no top that rises.
[[nodiscard]] inline tl::season_response assumed_response(const tl::instrument& i) {
    tl::season_response response;
    response.bow = 0.5 * tl::unmeasured_season_bow;
    response.top = (i.body_bridge ? 0.0 : 0.5 * tl::unmeasured_season_top * 1e3) * tl::units::mm;
    return response;
}
/// The air in which the page's instruments were measured.
inline constexpr double measured_humidity = 50, temperature = 20;

/// The places of the sliders for an instrument as it was made.
[[nodiscard]] inline slider_places as_made(const tl::instrument& i) {
    slider_places at{.crown = i.frets.wire.crown_height};
    if (i.board.surface.radius && !i.board.surface.radius_at_end) { at.radius = i.board.surface.radius; }
    if (i.neck.rod) { at.rod = i.neck.rod_pull; }
    at.humidity = measured_humidity;
    return at;
}

/// The strung instrument for these places of the sliders.
/// @throws tautline::invalid_input if such an instrument is not valid
template <class R>
[[nodiscard]] tl::basic_strung_instrument<R> slid(const tl::ordered_instrument& made, const basic_sliders<R>& at,
                                                  std::size_t string) {
    auto o = tl::over<R>(made);
    auto& i = o.instrument;
    const auto scale = [&](auto& order, const R& times) {
        const auto grow = [&](auto& d) { d = tl::length<R>(d * times); };
        grow(order.gauge);
        if (order.core) { grow(*order.core); }
        if (order.core_flats) { grow(*order.core_flats); }
        if (order.inner_wire) { grow(*order.inner_wire); }
    };
    for (auto& order : o.strings) { scale(order, at.set); }
    if (string < o.strings.size()) { scale(o.strings[string], at.one); }
    if (at.radius) { i.board.surface.radius = at.radius; }
    i.frets.wire.crown_height = at.crown;
    if (i.saddle.single.empty()) {
        i.saddle.height_bass = tl::length<R>(i.saddle.height_bass + at.saddle);
        i.saddle.height_treble = tl::length<R>(i.saddle.height_treble + at.saddle);
    }
    for (auto& one : i.saddle.single) { one.height = tl::length<R>(one.height + at.saddle); }
    if (at.rod) { i.neck.rod_pull = at.rod; }
    const auto air = [](const R& humidity) {
        return tl::basic_climate<R>{tl::absolute_temperature<R>::from_number(tl::number<R>(temperature)),
                                    tl::relative_humidity<R>::from_number(humidity)};
    };
    return tl::moistened(tl::string_up(o), tl::over<R>(assumed_response(made.instrument)),
                         tl::moisture_gained(air(tl::number<R>(measured_humidity)), air(at.humidity)));
}

} // namespace page
