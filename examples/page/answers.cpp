#include "answers.hpp"

#include <array>

#include <tautline/core/invalid_input.hpp>

#include "../text/shown.hpp"
#include "json.hpp"

namespace page {

namespace {

std::string wrong(std::string_view field, std::string_view sentence) {
    return json::object({{"field", json::text(field)}, {"sentence", json::text(safe_text::shown(sentence))}});
}
struct part {
    const char* name;
    std::string (*answer)(const question& q);
};
constexpr std::array parts{part{"choices", [](const question&) { return choices(); }},
                           part{"table", tension_table},
                           part{"cell", tension_cell},
                           part{"sliders", sliders},
                           part{"states", two_states},
                           part{"why", why},
                           part{"sheet", job_sheet},
                           part{"start", starting_job}};

std::string answer_of(const question& q) {
    for (const part& p : parts) {
        if (q.what() == p.name) { return p.answer(q); }
    }
    throw tautline::invalid_input(tautline::problem{"question", std::string(q.what()), "must be one of those there are"});
}

} // namespace

work_counts& counts() {
    static work_counts all;
    return all;
}

std::string answer(std::string_view asked) {
    std::vector<std::string> list;
    try {
        return answer_of(question(asked));
    } catch (const tautline::invalid_input& e) {
        for (const tautline::problem& p : e.problems()) { list.push_back(wrong(p.field, p.sentence())); }
    } catch (const std::exception& e) { list.push_back(wrong("", e.what())); }
    return json::object({{"wrong", json::list(list)}});
}

} // namespace page
