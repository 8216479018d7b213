#pragma once
/// @file
/// What a job file holds beyond the library's own aggregates: strings as they are ordered, things under the strings, and
/// what is planned.

#include <optional>
#include <string>
#include <vector>

#include <tautline/action/object_clearance.hpp>
#include <tautline/setup/bench_work.hpp>
#include <tautline/setup/wishes.hpp>

namespace bench_sheet {

namespace tl = tautline;

/// A string's number as the trade counts: 6, or "4a". Kept as text.
struct string_number {
    std::string text{};
};

/// The thinnest that strings are made: the finest music wire of ASTM A228 is 0.10 mm (from memory); gut and nylon are
/// thicker.
inline constexpr auto thinnest_string = 0.1 * tl::units::mm;
/// The thickest: the largest wound strings, those of contrabasses and the lowest of pianos, stay below (common practice, no
/// source).
inline constexpr auto thickest_string = 8 * tl::units::mm;

/// A string as it is ordered: plain by its gauge, wound by its gauge and its core.
struct ordered_string {
    string_number number{};
    std::string note{};
    tl::field<tl::length<>> gauge{};
    std::string material = "music wire";           ///< of a plain string, or of a wound one's core
    std::optional<tl::field<tl::length<>>> core{}; ///< diameter of a wound string's core
    std::string wrap{};                            ///< material of a wound string's wrap

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("number", self.number...);
        visit("note", tl::any_text, self.note...);
        visit("gauge", tl::between(thinnest_string, thickest_string), self.gauge...);
        visit("material", self.material...);
        visit("core", tl::between(thinnest_string, thickest_string), self.core...);
        visit("wrap", self.wrap...);
    }
};

/// A flat thing under the strings: a pickup, a guard, the end of the board.
struct named_object {
    std::string name{};
    tl::flat_object shape{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", tl::any_text, self.name...);
        tl::flat_object::describe(visit, self.shape...);
    }
};

/// Two measurements that err together, such as two heights read with one gauge.
struct correlated_keys {
    std::string first{};
    std::string second{};
    double coefficient = 1;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("first", tl::any_text, self.first...);
        visit("second", tl::any_text, self.second...);
        visit("coefficient", tl::between(-1, 1).fair_default("they always err alike"), self.coefficient...);
    }
};

/// What is planned: work on board and frets, a new set, and whatever else will be different, under the keys it was found
/// under.
struct planned_part {
    std::string title{};
    tl::field<tl::frequency<>> a4 = 440 * tl::units::Hz;
    std::optional<tl::sanding> sanding{};
    std::optional<tl::fret_wire> wire{};
    std::optional<tl::fret_levelling> levelling{};
    std::vector<ordered_string> strings{}; ///< none: those that were found
    std::vector<named_object> objects{};   ///< as they will lie
    tl::instrument built{};                ///< begun as found; its board and frets are changed by work alone

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("title", self.title...);
        visit("a4", tl::between(200 * tl::units::Hz, 900 * tl::units::Hz).fair_default("as found"), self.a4...);
        visit("sanding", self.sanding...);
        visit("wire", self.wire...);
        visit("levelling", self.levelling...);
        visit("strings", self.strings...);
        visit("objects", self.objects...);
        visit("neck", self.built.neck...);
        visit("nut", self.built.nut...);
        visit("headstock", self.built.headstock...);
        visit("posts", self.built.posts...);
        visit("saddle", self.built.saddle...);
        visit("tailpiece", self.built.tailpiece...);
        visit("pins", self.built.pins...);
        visit("feet", self.built.feet...);
        visit("soundboard", self.built.soundboard...);
        visit("playing", self.built.playing...);
    }
    /// What is done to board and frets.
    [[nodiscard]] tl::bench_work work() const {
        return {.sanding = sanding, .wire = wire, .levelling = levelling, .strings = std::nullopt};
    }
    template <class Report>
    void rules(Report&& report) const {
        if (sanding && !wire && !built.frets.wire.tang_depth) {
            report("sanding", "must come with planned.wire, or frets.wire.tang_depth must be given: the slots are to take "
                              "the tang of the frets");
        }
    }
};

} // namespace bench_sheet
