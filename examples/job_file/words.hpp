#pragma once
/// @file
/// A job file's words for choices.

#include <string_view>

#include <tautline/job/bench_job.hpp>

namespace job_file {

namespace tl = tautline;

/// One word of a choice.
template <class T>
struct choice_word {
    std::string_view word;
    T choice;
};

/// The words of a choice. It is specialised for each choice: `static constexpr choice_word<T> list[]`.
template <class T>
struct words_of;

template <>
struct words_of<tl::spacing_rule> {
    static constexpr choice_word<tl::spacing_rule> list[] = {{"equal centres", tl::spacing_rule::equal_centres},
                                                             {"equal gaps", tl::spacing_rule::equal_gaps}};
};
template <>
struct words_of<tl::slot_floor> {
    static constexpr choice_word<tl::slot_floor> list[] = {{"follows arc", tl::slot_floor::follows_arc},
                                                           {"flat", tl::slot_floor::flat}};
};
template <>
struct words_of<tl::insert_profile> {
    static constexpr choice_word<tl::insert_profile> list[] = {{"rectangle", tl::insert_profile::rectangle},
                                                               {"round", tl::insert_profile::round}};
};

template <>
struct words_of<tl::modulus_method> {
    static constexpr choice_word<tl::modulus_method> list[] = {
        {"not told", tl::modulus_method::not_told},         {"three-point", tl::modulus_method::three_point},
        {"two loads", tl::modulus_method::constant_moment}, {"tap tone", tl::modulus_method::tap_tone},
        {"sound", tl::modulus_method::sound_speed},         {"compression", tl::modulus_method::compression}};
};

template <>
struct words_of<tl::neck_held> {
    static constexpr choice_word<tl::neck_held> list[] = {{"slack", tl::neck_held::slack},
                                                          {"as at pitch", tl::neck_held::as_at_pitch},
                                                          {"as it will be", tl::neck_held::as_it_will_be}};
};

template <>
struct words_of<tl::noted_rod> {
    static constexpr choice_word<tl::noted_rod> list[] = {
        {"by the steps", tl::noted_rod::by_steps}, {"as set", tl::noted_rod::as_set}, {"loose", tl::noted_rod::loose}};
};

} // namespace job_file
