#pragma once
/// @file
/// What else is laid out at the bench: the centre line carried to bridge and tail, fret wire cut and bent to length,
/// dots, and objects under the strings brought to a wished gap.

#include "../board/markers.hpp"
#include "../core/quantity_text.hpp"
#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "../instrument/fret_lines.hpp"
#include "job_setups.hpp"

namespace tautline {

/// A place on the instrument, carried from the board's centre line. Places across count from the line that the edges were
/// measured from.
struct carried_place {
    std::string what{};                           ///< "middle of the bridge", "string 6 (E2) over the saddle"
    length<> x{};                                 ///< from the front of the nut
    length<> y{};                                 ///< from the reference line; positive toward the treble
    std::optional<length<>> give_or_take{};       ///< of that, at about 95 %; absent: not known
    std::optional<length<>> off{};                ///< how far off the place that was found is; positive toward the treble
    std::optional<length<>> allowed_by_reading{}; ///< at about 95 %: with less than this it may as well lie on the line
};

/// One piece of fret wire.
struct cut_piece {
    int fret = 0;           ///< 0 is a zero fret
    length<> crown{};       ///< length of the piece
    length<> tang{};        ///< length of the tang that is left
    length<> bend_radius{}; ///< inside radius to bend it to
};
/// Wire for all frets.
struct wire_to_buy {
    std::vector<cut_piece> pieces{}; ///< in order from the nut; a zero fret comes first
    length<> all{};                  ///< length of wire, with cuts and spare
};

/// An object under the strings, brought to the gap that is wished.
struct brought_to_gap {
    std::string name{};           ///< of the object
    length<> wished{};            ///< wished least clearance, with each string pressed at the last fret
    length<> is{};                ///< least clearance as it lies now
    length<> raise{};             ///< how far to raise it with its tilt as it is; negative: lower it
    length<> raise_when_tilted{}; ///< how far to raise it once it lies along the strings
    angle<> along_change{};       ///< change of its tilt to lie along the strings; positive rises toward the bridge
    angle<> across_change{};      ///< change of its bracket's tilt; positive rises toward the treble
};

/// Everything that is laid out.
struct bench_layout {
    std::vector<carried_place> centre{};   ///< empty: no edges were measured
    std::optional<wire_to_buy> wire{};     ///< given where it is asked for
    std::vector<marker> dots{};            ///< given where they are asked for
    std::vector<brought_to_gap> objects{}; ///< those with a wished gap
    /// Whether nothing is laid out.
    [[nodiscard]] bool empty() const { return centre.empty() && !wire && dots.empty() && objects.empty(); }
};

namespace kernel {

/// What the strings of an instrument end on, in a word.
[[nodiscard]] inline const char* ends_word(const instrument& i) {
    return i.tailpiece ? "the tailpiece" : i.pins ? "the pins" : i.tie_block ? "the tie block" : "the bridge";
}

template <class = when_used>
[[nodiscard]] std::vector<carried_place> carried_centre(const noted_centre& noted, const instrument& on, const setup& s) {
    const centre_line line = find_centre_line(noted.edges());
    std::vector<carried_place> all;
    const auto add = [&](std::string what, const length<>& x, const length<>& beside,
                         const std::optional<field<length<>>>& found) {
        const place_across at = centre_at<double>(line, x);
        carried_place one{std::move(what), x, at.y + beside, std::nullopt, std::nullopt, std::nullopt};
        if (at.uncertainty) { one.give_or_take = *at.uncertainty * coverage_factor; }
        if (found) {
            // Its own reading is one reading, not the mean of two edges.
            const length<> own = line.variance ? length<>::from_value(std::sqrt(2 * *line.variance)) : 0 * units::mm;
            const place_across off = off_centre<double>(line, x, *found, own);
            one.off = off.y;
            if (off.uncertainty) { one.allowed_by_reading = *off.uncertainty * coverage_factor; }
        }
        all.push_back(std::move(one));
    };
    const auto &first = s.strings.front(), &last = s.strings.back();
    const length<> saddle_x = (first.line.saddle_x + last.line.saddle_x) / 2;
    add("middle of the bridge, at the saddle", saddle_x, {}, noted.bridge_at);
    const auto outer = [&](const char* where, auto&& x_of, auto&& y_of) {
        for (const std::size_t i : {std::size_t{0}, s.strings.size() - 1}) {
            add(messages::joined({s.names.name(i), where}), x_of(i), y_of(i), std::nullopt);
            if (s.strings.size() == 1) { break; }
        }
    };
    outer(
        " over the saddle", [&](std::size_t i) { return length<>(s.strings[i].line.saddle_x); },
        [&](std::size_t i) { return s.strings[i].y_at_saddle; });
    const length<> end_x = (s.string_ends.front().x + s.string_ends.back().x) / 2;
    add(messages::joined({"middle of the line where strings leave ", ends_word(on)}), end_x, {}, noted.tail_at);
    outer(
        messages::joined({" at ", ends_word(on)}).c_str(), [&](std::size_t i) { return length<>(s.string_ends[i].x); },
        [&](std::size_t i) { return length<>(s.string_ends[i].y); });
    if (on.tailpiece) {
        add("middle of the tailpiece's hanger", line_place(on) + on.tailpiece->hinge_distance, {}, std::nullopt);
    }
    if (noted.end_pin) { add("end pin", *noted.end_pin, {}, noted.end_pin_at); }
    return all;
}

template <class = when_used>
[[nodiscard]] wire_to_buy wire_for(const wire_cut& cut, const instrument& on) {
    const auto lines = lines_on_board(on);
    basic_fret_pieces<double> all;
    wire_to_buy wire;
    for (std::size_t n = on.board.scale.zero_fret ? 0 : 1; n < lines.size(); ++n) {
        const auto& ends = lines[n];
        kernel::add(all, kernel::fret_piece<double>(on.board, cut.rule, static_cast<int>(n), ends), cut.rule);
        const auto& piece = all.pieces.back();
        const length<> middle = (ends.bass.x + ends.treble.x) / 2;
        const length<> width = hypot(length<>(ends.treble.x - ends.bass.x), length<>(ends.treble.y - ends.bass.y));
        // Along a slanted fret the board's arc is flatter: curvature times the cosine squared of the slant (Euler's
        // theorem).
        const double share = (ends.treble.y - ends.bass.y) / width;
        const curvature<> k = kernel::arc_curvature(on.board.surface, middle) * (share * share);
        wire.pieces.push_back({piece.fret, piece.crown, piece.tang, prebend_radius(k, width, length<>(cut.lead))});
    }
    wire.all = all.to_buy;
    return wire;
}

} // namespace kernel

/// How to bring an object under the strings of a solved setup to a gap, with each string pressed at the last fret, or
/// open on a board without frets. `gap` is 0 to 50 mm.
template <class = when_used>
[[nodiscard]] brought_to_gap bring_to_gap(const setup& s, const named_object& object, const length<>& gap) {
    require("gap", gap, between(0 * units::mm, 50 * units::mm));
    const auto gap_of = [&](const named_object& o) {
        const object_seat seat = under_strings(s, o);
        return seat.pressed ? *seat.pressed : seat.open;
    };
    const object_seat seat = under_strings(s, object);
    named_object tilted = object;
    tilted.shape.along = seat.along;
    tilted.shape.across = seat.across;
    brought_to_gap to{object.name, gap, gap_of(object), {}, {}, {}, {}};
    to.raise = to.is - gap;
    to.raise_when_tilted = gap_of(tilted) - gap;
    to.along_change = seat.along - object.shape.along;
    to.across_change = seat.across - object.shape.across;
    return to;
}

/// Everything that a job asks to have laid out, on the instrument at the end of the job.
template <class = when_used>
[[nodiscard]] bench_layout layout_of(const bench_job& j, const job_setups& s) {
    bench_layout out;
    const tautline::instrument& on = s.last_strung().instrument;
    if (j.centre) { out.centre = kernel::carried_centre(*j.centre, on, s.last()); }
    if (j.planned && j.planned->pieces) { out.wire = kernel::wire_for(*j.planned->pieces, on); }
    if (j.planned && j.planned->dots) { out.dots = markers<double>(on.board, *j.planned->dots); }
    for (const named_object& o : s.objects) {
        if (o.gap) { out.objects.push_back(bring_to_gap(s.last(), o, *o.gap)); }
    }
    return out;
}
TAUTLINE_HELD(bench_layout layout_of<>(const bench_job&, const job_setups&))

namespace kernel {

/// A list of frets in words: "fret 12", "frets 3, 5 and 7".
[[nodiscard]] inline std::string frets_in_words(const std::vector<int>& frets) {
    std::string text = frets.size() == 1 ? "fret" : "frets";
    for (std::size_t i = 0; i < frets.size(); ++i) {
        messages::append(text, {i == 0 ? " " : i + 1 == frets.size() ? " and " : ", ", frets[i]});
    }
    return text;
}

} // namespace kernel

/// Everything that is laid out in sentences: the carried places, the gaps, and what wire and dots there are. Piece by
/// piece and dot by dot they are tables.
[[nodiscard]] inline std::vector<std::string> sentences_of(const bench_layout& layout, measures in) {
    std::vector<std::string> all;
    const auto text = [&](const length<>& q) { return bench_text(q, {.units = in}); };
    const auto turned = [](const angle<>& a) {
        return messages::joined({a < 0 * units::deg ? "" : "+", fixed_text(a, units::deg, 1), " deg"});
    };
    for (const carried_place& at : layout.centre) {
        std::string line =
            messages::joined({at.what, ", ", text(at.x), " from the nut: ", text(at.y), " across from the reference line"});
        if (at.give_or_take) { messages::append(line, {", give or take ", text(*at.give_or_take)}); }
        if (at.off) {
            const bool sure = at.allowed_by_reading && abs(*at.off) > *at.allowed_by_reading;
            messages::append(line,
                             {"; found ", text(abs(*at.off)), " toward the ", *at.off < 0 * units::mm ? "bass" : "treble",
                              !at.allowed_by_reading ? ""
                              : sure                 ? ", more than reading explains"
                                                     : ", which reading may explain"});
        }
        all.push_back(line + ".");
    }
    if (!layout.centre.empty() && !layout.centre.front().give_or_take) {
        all.emplace_back(
            "Nothing tells how sure these places are: measure the edges at a third place, or say give_or_take.");
    }
    for (const brought_to_gap& o : layout.objects) {
        all.push_back(messages::joined(
            {o.name, ", to clear the strings by ", text(o.wished),
             " pressed at the last fret: ", o.raise < 0 * units::mm ? "lower it by " : "raise it by ", text(abs(o.raise)),
             " as it lies; or tilt it by ", turned(o.along_change), " toward the bridge and its bracket by ",
             turned(o.across_change), " toward the treble, and ",
             o.raise_when_tilted < 0 * units::mm ? "lower it by " : "raise it by ", text(abs(o.raise_when_tilted)), "."}));
    }
    if (layout.wire) {
        const std::size_t count = layout.wire->pieces.size();
        all.push_back(messages::joined({"Wire to buy: ", text(layout.wire->all), " with cuts and spare, for ", count,
                                        count == 1 ? " piece." : " pieces."}));
    }
    if (!layout.dots.empty()) {
        std::vector<int> single, several;
        for (const marker& d : layout.dots) { (d.dots == 1 ? single : several).push_back(d.fret); }
        std::string line = "Dots before ";
        if (!single.empty()) { messages::append(line, {kernel::frets_in_words(single)}); }
        if (!several.empty()) {
            messages::append(line, {single.empty() ? "" : ", and more than one before ", kernel::frets_in_words(several),
                                    single.empty() ? ", more than one each" : ""});
        }
        all.push_back(line + ".");
    }
    return all;
}

} // namespace tautline
