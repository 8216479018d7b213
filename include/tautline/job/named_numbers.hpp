#pragma once
/// @file
/// Every number of a job's answers by name, in words, with how it was made and what moves it.

#include <string>
#include <vector>

#include "../core/near_names.hpp"
#include "../core/when_used.hpp"
#include "explanation.hpp"
#include "job_setups.hpp"
#include "typed_names.hpp"

namespace tautline {

/// A number of the answers.
struct named_number {
    std::string state{};   ///< what it belongs to: "planned", "plan", "work", "found", "objects[0]"
    std::string path{};    ///< path within that, such as "relief.gap"
    std::string name{};    ///< both together, such as "planned.relief.gap" or "plan.slot_change[0]"
    any_quantity value{};  ///< its value
    std::string words{};   ///< what it is, in words
    std::string formula{}; ///< how it is computed; may be empty
    std::string source{};  ///< source of the formula; may be empty
};

namespace kernel {

/// What a plan is made from, with paths from one root.
template <class R>
struct plan_inputs {
    using real = R;
    basic_strung_instrument<R> start;
    basic_wishes<R> wanted{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("", self.start...);
        visit("wanted", self.wanted...);
    }
};

/// Adds the numbers of one part of the answers.
/// @param meant what precedes their paths in the table of meanings
/// @param behind what follows their words to tell the state
template <class Part>
void add_numbers(std::vector<named_number>& list, std::string_view state, std::string_view meant, const Part& part,
                 const string_names& names, const char* behind) {
    for_each_leaf(part, [&](std::string_view path, const auto& x) {
        const std::string with_meaning = messages::joined({meant, path});
        named_number n{std::string(state),
                       std::string(path),
                       messages::joined({state, ".", path}),
                       any_of(x),
                       messages::joined({words_for(with_meaning, names), behind}),
                       "",
                       ""};
        if (const auto m = meaning_of(with_meaning)) {
            n.formula = m->formula;
            n.source = m->source;
        }
        list.push_back(std::move(n));
    });
}

} // namespace kernel

/// Every number of a job's answers: as planned, of the plan, of the work, as found, and of what lies under the strings.
template <class = when_used>
[[nodiscard]] std::vector<named_number> named_numbers(const job_setups& s) {
    std::vector<named_number> list;
    if (s.planned) {
        const string_names& names = s.plan.solved.names;
        kernel::add_numbers(list, "planned", "", s.plan.solved, names, ", as planned");
        kernel::add_numbers(list, "plan", "plan.", s.plan, names, "");
        kernel::add_numbers(list, "work", "work.", numbers_of(s.work), names, "");
    }
    kernel::add_numbers(list, "found", "", s.found, s.found.names, ", as found");
    for (std::size_t i = 0; i < s.seats.size(); ++i) {
        const std::size_t first = list.size();
        kernel::add_numbers(list, messages::path_of("objects", i), "objects[].", s.seats[i], s.last().names, "");
        for (std::size_t k = first; k < list.size(); ++k) {
            list[k].words = messages::joined({s.objects[i].name, ": ", list[k].words});
        }
    }
    return list;
}
TAUTLINE_HELD(std::vector<named_number> named_numbers<>(const job_setups&))

/// The number of a name; one without "found." or "planned." is of the last state. Null where there is none.
[[nodiscard]] inline const named_number* find_number(const std::vector<named_number>& list, std::string_view name) {
    for (const std::string_view prefix : {"", "planned.", "found."}) {
        for (const named_number& n : list) {
            if (n.name == messages::joined({prefix, name})) { return &n; }
        }
    }
    return nullptr;
}

/// The name nearest to one that does not exist, with or without its state; may be empty.
[[nodiscard]] inline std::string nearest_name(const std::vector<named_number>& list, std::string_view name) {
    std::vector<std::string_view> names;
    for (const named_number& n : list) {
        names.push_back(n.name);
        names.push_back(std::string_view(n.name).substr(n.name.find('.') + 1));
    }
    return std::string(nearest(name, names));
}

/// The number of a typed name; one without "found." or "planned." is of the last state.
/// @param what what the name is given for, for the message
/// @throws invalid_input where no number has that name; the message tells the nearest
template <class = when_used>
[[nodiscard]] named_number number_by_name(const job_setups& s, std::string_view name, std::string_view what) {
    const auto list = named_numbers(s);
    const string_names& names = name.starts_with("found.") ? s.found.names : s.last().names;
    if (const named_number* n = find_number(list, typed_path(name, names, what))) { return *n; }
    const std::string close = nearest_name(list, name);
    kernel::refuse_name(name, what,
                        messages::joined({"must be the name of a number of the answers, such as ",
                                          close.empty() ? std::string_view("relief.gap") : std::string_view(close)}));
}
TAUTLINE_HELD(named_number number_by_name<>(const job_setups&, std::string_view, std::string_view))

/// The inputs that move a number of the answers; the largest effect of a hundredth comes first. Empty for a number that
/// does not follow from numbers of the instrument alone.
template <class = when_used>
[[nodiscard]] std::vector<moving_input> inputs_of(const bench_job& j, const job_setups& s, const named_number& n) {
    if (n.state == "found") { return explain(s.as_found, n.path).inputs; }
    if (n.state == "planned") { return explain(s.plan.adjusted, n.path).inputs; }
    if (n.state == "plan") {
        const auto made = [&](const auto& in) {
            using R = typename std::remove_cvref_t<decltype(in)>::real;
            if (!s.stood) { return make_plan(in.start, in.wanted); }
            // What is planned by value was otherwise before, whatever becomes of the planned value.
            auto stood = in.start.instrument;
            lay_over(basic_overlay<R>{over<R>(*s.stood), j.planned->changes.paths}, stood);
            return make_plan(in.start, in.wanted, &stood);
        };
        return explain<kernel::plan_inputs>(kernel::plan_inputs<double>{s.work.after, j.wishes_or_none()}, made, n.path)
            .inputs;
    }
    return {};
}
TAUTLINE_HELD(std::vector<moving_input> inputs_of<>(const bench_job&, const job_setups&, const named_number&))

} // namespace tautline
