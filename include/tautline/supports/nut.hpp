#pragma once
/// @file
/// The nut: where the headstock takes the strings behind it, and how firmly each string sits in its slot.
///
/// Source: plane geometry; statics as in break_angle.hpp.

#include "break_angle.hpp"

namespace tautline {

/// The face of a headstock: a plane that starts behind the nut and falls away toward the tuners.
template <class R = double>
struct basic_headstock {
    using real = R;
    needed<angle<R>> pitch;       ///< how far the face falls back from the line of the board; 0 on a flat headstock
    needed<length<R>> face_start; ///< from the nut's front face back to where the face plane is taken, at least 0
    needed<length<R>> face_drop;  ///< how far the face lies below the bare board there; negative when above

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("pitch", between(-30 * units::deg, 60 * units::deg), self.pitch...);
        visit("face_start", between(0 * units::mm, 100 * units::mm), self.face_start...);
        visit("face_drop", between(-50 * units::mm, 50 * units::mm), self.face_drop...);
    }
};
using headstock = basic_headstock<double>;

/// Where a string leaves its tuner post (or the guide that holds it down on its way there).
template <class R = double>
struct basic_tuner_post {
    using real = R;
    needed<length<R>> along;  ///< from the start of the face along it
    needed<length<R>> across; ///< of the point where the string leaves the post, from the centre line, bass negative
    needed<length<R>> height; ///< of the string's axis above the face, square to it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("along", between(0.1 * units::mm, 600 * units::mm), self.along...);
        visit("across", between(-200 * units::mm, 200 * units::mm), self.across...);
        visit("height", between(0 * units::mm, 50 * units::mm), self.height...);
    }
};
using tuner_post = basic_tuner_post<double>;

namespace kernel {

template <class R>
[[nodiscard]] basic_point<R> post_point(const basic_headstock<R>& head, const basic_tuner_post<R>& post, const R& c,
                                        const R& s) {
    basic_point<R> p;
    p.x = -(head.face_start + c * post.along + s * post.height);
    p.y = post.across;
    p.z = -head.face_drop - s * post.along + c * post.height;
    return p;
}
template <class R>
[[nodiscard]] basic_point<R> post_point(const basic_headstock<R>& head, const basic_tuner_post<R>& post) {
    return post_point<R>(head, post, cos(head.pitch), sin(head.pitch));
}

} // namespace kernel

/// The point in space where a string leaves its post.
template <class R = double>
[[nodiscard]] basic_point<R> post_point(const basic_headstock<R>& head, const basic_tuner_post<R>& post) {
    require_valid(head, "headstock");
    require_valid(post, "post");
    return kernel::post_point(head, post);
}

/// What a string does at the nut. Its `down()` is what seats it in the slot, `side_angle` what presses it on the slot's
/// wall.
///
/// @param nut_point the string's axis at the nut's front edge
/// @param saddle_point its axis at the saddle
/// @param tension at least 0
template <class R = double>
[[nodiscard]] basic_support_load<R> nut_load(const basic_point<R>& nut_point, const basic_point<R>& saddle_point,
                                             const basic_headstock<R>& head, const basic_tuner_post<R>& post,
                                             param<force<R>> tension) {
    return support_load(saddle_point, nut_point, post_point(head, post), tension);
}

/// How steeply the floor of a nut slot may fall toward the headstock.
template <class R = double>
struct basic_nut_slot_floor {
    using real = R;
    angle<R> least{};   ///< flatter, and the string leaves the nut behind its front edge: long, and it buzzes
    angle<R> most{};    ///< steeper, and the front edge alone bears the string
    angle<R> advised{}; ///< half way (common practice, no source)

    /// Whether there is such a floor at all: not where the string rises toward its post.
    [[nodiscard]] constexpr auto possible() const { return least.value() < most.value(); }
};

/// Fall of a slot's floor, from level, so that the string leaves the nut at its front edge.
/// @param nut_point,saddle_point the string's axis at the nut's front edge and at the saddle
/// @param post where it leaves its post
template <class R = double>
[[nodiscard]] basic_nut_slot_floor<R> nut_slot_floor(const basic_point<R>& nut_point, const basic_point<R>& saddle_point,
                                                     const basic_point<R>& post) {
    const auto onward = direction_between(nut_point, saddle_point), back = direction_between(nut_point, post);
    basic_nut_slot_floor<R> floor;
    floor.least = angle<R>::from_value(atan2(onward.z, root_or_zero<R>(onward.x * onward.x + onward.y * onward.y)));
    floor.most = angle<R>::from_value(atan2(R(-back.z), root_or_zero<R>(back.x * back.x + back.y * back.y)));
    floor.advised = number<R>(0.5L) * (floor.least + floor.most);
    return floor;
}

} // namespace tautline
