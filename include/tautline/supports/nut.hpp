#pragma once
/// @file
/// The nut: the way of the strings behind it to the headstock, and how firmly each string sits in its slot.
///
/// Source: plane geometry; statics as in break_angle.hpp.

#include <optional>

#include "bent_path.hpp"

namespace tautline {

/// The face of a headstock: a plane that starts behind the nut and falls away toward the tuners.
template <class R = double>
struct basic_headstock {
    using real = R;
    needed<angle<R>> pitch;       ///< how far the face falls back from the line of the board; 0 on a flat headstock
    needed<length<R>> face_start; ///< from the nut's front face back to where `face_drop` is measured, at least 0
    needed<length<R>> face_drop;  ///< how far the face lies below the bare board there; negative where it lies above
    /// For a slotted head: the distance along the face from its start to the beginning of the slots. A string that comes
    /// lower than the face there lies on that edge.
    std::optional<field<length<R>>> slot_start{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("pitch", between(-30 * units::deg, 60 * units::deg), self.pitch...);
        visit("face_start", between(0 * units::mm, 100 * units::mm), self.face_start...);
        visit("face_drop", between(-50 * units::mm, 50 * units::mm), self.face_drop...);
        visit("slot_start", between(0.1 * units::mm, 300 * units::mm), self.slot_start...);
    }
};
using headstock = basic_headstock<double>;

/// A guide on the head that holds a string down on its way from the nut to its post.
template <class R = double>
struct basic_string_guide {
    using real = R;
    needed<length<R>> along;  ///< from the start of the head's face along it
    needed<length<R>> height; ///< of the guide's underside above the face, measured square to the face
    /// For a guide that holds the string sideways: the string's place from the centre line, bass negative. Absent: a bar,
    /// under which the string runs on to its post without a bend sideways.
    std::optional<field<length<R>>> across{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("along", between(0.1 * units::mm, 600 * units::mm), self.along...);
        visit("height", between(-20 * units::mm, 50 * units::mm), self.height...);
        visit("across", between(-200 * units::mm, 200 * units::mm), self.across...);
    }
};
using string_guide = basic_string_guide<double>;

template <class R = double>
struct basic_tuner_post;

namespace kernel {

/// Whether a post lies further along the head than a place; a roller must clear it with the thickest string on it.
template <class R>
[[nodiscard]] constexpr bool roller_is_behind(const basic_tuner_post<R>& post, const length<R>& along) {
    const length<R> reach = post.roller ? length<R>(*post.roller * number<R>(0.5L) + over<R>(4 * units::mm)) : length<R>();
    return in_all_lanes(along.value() < (post.along - reach).value());
}

} // namespace kernel

/// Where a string leaves its tuner post, or the roller it winds on in the slot of a head.
template <class R>
struct basic_tuner_post {
    using real = R;
    needed<length<R>> along;  ///< from the start of the face along it; for a roller to its axis
    needed<length<R>> across; ///< of the point where the string leaves the post, from the centre line, bass negative
    needed<length<R>>
        height; ///< of the string's axis above the face, square to it; of a roller its own axis, negative below
    /// Diameter of a roller that lies across a slot of the head, as wound; the string comes in over its upper side.
    std::optional<field<length<R>>> roller{};
    std::optional<basic_string_guide<R>> guide{}; ///< what holds the string down on its way; absent: nothing

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("along", between(0.1 * units::mm, 600 * units::mm), self.along...);
        visit("across", between(-200 * units::mm, 200 * units::mm), self.across...);
        visit("height", between(-40 * units::mm, 50 * units::mm), self.height...);
        visit("roller", between(0.1 * units::mm, 40 * units::mm), self.roller...);
        visit("guide", self.guide...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (guide && !kernel::roller_is_behind<R>(*this, guide->along)) {
            report("guide.along", "must be less than the post's: the guide is on the string's way there");
        }
    }
};
using tuner_post = basic_tuner_post<double>;

namespace kernel {

/// The point in space of a place on the head; `c` and `s` are cosine and sine of the head's pitch.
template <class R>
[[nodiscard]] basic_point<R> head_point(const basic_headstock<R>& head, const length<R>& along, const length<R>& across,
                                        const length<R>& height, const R& c, const R& s) {
    basic_point<R> p;
    p.x = -(head.face_start + c * along + s * height);
    p.y = across;
    p.z = -head.face_drop - s * along + c * height;
    return p;
}
template <class R>
[[nodiscard]] basic_point<R> post_point(const basic_headstock<R>& head, const basic_tuner_post<R>& post, const R& c,
                                        const R& s) {
    return head_point<R>(head, post.along, post.across, post.height, c, s);
}
template <class R>
[[nodiscard]] basic_point<R> post_point(const basic_headstock<R>& head, const basic_tuner_post<R>& post) {
    return post_point<R>(head, post, cos(head.pitch), sin(head.pitch));
}

} // namespace kernel

/// The point in space where a string leaves its post; for a roller the point of its axis at the string.
template <class R = double>
[[nodiscard]] basic_point<R> post_point(const basic_headstock<R>& head, const basic_tuner_post<R>& post) {
    require_valid(head, "headstock");
    require_valid(post, "post");
    return kernel::post_point(head, post);
}

/// What a string does at the nut where it runs straight to its post. `down()` of the result seats it in the slot;
/// `side_angle` presses it on the slot's wall. Where the string meets a guide first, or winds on a roller, ask
/// `way_from_nut` for the point that it runs to, and `support_load` for the forces.
///
/// @param nut_point the string's axis at the nut's front edge
/// @param saddle_point its axis at the saddle
/// @param tension at least 0
template <class R = double>
[[nodiscard]] basic_support_load<R> nut_load(const basic_point<R>& nut_point, const basic_point<R>& saddle_point,
                                             const basic_headstock<R>& head, const basic_tuner_post<R>& post,
                                             param<force<R>> tension) {
    require_that(!post.guide && !post.roller, "post",
                 "must be one that the string runs straight to: without guide or roller");
    return support_load(saddle_point, nut_point, post_point(head, post), tension);
}

/// What a string meets on its way from the nut to its post.
template <class R = double>
struct basic_way_to_post {
    using real = R;
    basic_point<R> first{};              ///< what it meets first behind the nut, on the string's axis
    basic_point<R> post{};               ///< where it leaves its post or roller
    std::optional<basic_point<R>> via{}; ///< where it passes a guide or the edge of its slot, touched or not
};
using way_to_post = basic_way_to_post<double>;

namespace kernel {

/// Whether a post has a possible height: only a roller may lie below the face.
template <class R>
[[nodiscard]] constexpr bool stands_on_face(const basic_tuner_post<R>& post) {
    return post.roller || in_all_lanes(number<R>(0) <= post.height.value());
}

/// @param place carries a place on the head to where it is under load
template <class R, class Place>
[[nodiscard]] basic_way_to_post<R> way_from_nut(const basic_point<R>& nut, const basic_headstock<R>& head,
                                                const basic_tuner_post<R>& post, const length<R>& gauge, const R& c,
                                                const R& s, Place&& place) {
    const length<R> half = gauge * number<R>(0.5L);
    const auto axis = place(post_point<R>(head, post, c, s));
    const auto wound_from = [&](const basic_point<R>& from) {
        return post.roller ? roller_point<R>(from, axis, *post.roller * number<R>(0.5L) + half) : axis;
    };
    basic_way_to_post<R> way;
    way.first = way.post = wound_from(nut);
    const bool edge = post.roller && head.slot_start;
    if (!post.guide && !edge) { return way; }
    const auto at = place(post.guide ? head_point<R>(head, post.guide->along, post.guide->across.value_or(post.across),
                                                     post.guide->height - half, c, s)
                                     : head_point<R>(head, *head.slot_start, post.across, half, c, s));
    const auto side = post.guide ? bar_side::under : bar_side::over;
    const auto touched = crossing_of_bar<R>(nut, way.post, at.x, at.z, side);
    way.post = wound_from(touched);
    way.via = crossing_of_bar<R>(nut, way.post, at.x, at.z, side);
    if (post.guide && post.guide->across) { way.via->y = at.y; }
    way.first = *way.via;
    return way;
}

} // namespace kernel

/// A string's way from the nut to its post: under its guide, or over the edge of its slot.
///
/// @param nut_point the string's axis at the nut's front edge, before all that it meets on the head
/// @param gauge     of the string
template <class R = double>
[[nodiscard]] basic_way_to_post<R> way_from_nut(const basic_point<R>& nut_point, const basic_headstock<R>& head,
                                                const basic_tuner_post<R>& post, param<length<R>> gauge) {
    require_valid(nut_point, "nut point");
    require_valid(head, "headstock");
    require_valid(post, "post");
    require("gauge", gauge, between(0 * units::mm, 8 * units::mm));
    const R c = cos(head.pitch), s = sin(head.pitch);
    const auto before_nut = [&](const length<R>& along, const length<R>& reach) {
        const auto p = kernel::head_point<R>(head, along, length<R>(), length<R>(), c, s);
        return in_all_lanes(p.x.value() < (nut_point.x - reach).value());
    };
    require_that(kernel::stands_on_face<R>(post), "post.height",
                 "must be at least 0 mm without a roller: a post stands on the face");
    const length<R> reach = post.roller ? length<R>(*post.roller * number<R>(0.5L) + gauge) : length<R>();
    require_that(before_nut(post.along, reach), "post.along", "must be more: the post would stand at the nut");
    require_that(!post.guide || before_nut(post.guide->along, length<R>()), "post.guide.along",
                 "must be more: the guide would stand at the nut");
    require_that(!post.roller || !head.slot_start || kernel::roller_is_behind<R>(post, *head.slot_start),
                 "headstock.slot_start", "must be less: the roller lies in the slot");
    return kernel::way_from_nut<R>(nut_point, head, post, gauge, c, s, [](const basic_point<R>& p) { return p; });
}

/// The range of falls for the floor of a nut slot toward the headstock.
template <class R = double>
struct basic_nut_slot_floor {
    using real = R;
    angle<R> least{};   ///< on a flatter floor the string leaves the nut too far back: it is too long, and it buzzes
    angle<R> most{};    ///< on a steeper floor the front edge alone bears the string
    angle<R> advised{}; ///< half way (common practice, no source)

    /// Whether any floor does; none does where the string rises toward its post.
    [[nodiscard]] constexpr auto possible() const { return least.value() < most.value(); }
};

/// The fall of a slot's floor, from level, with which the string leaves the nut at its front edge.
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
