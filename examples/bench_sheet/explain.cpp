#include "explain.hpp"

#include <tautline/setup/explanation.hpp>

#include "typed_path.hpp"

namespace bench_sheet {

namespace {

/// What a plan is made from, under one list of paths.
template <class R>
struct plan_inputs {
    using real = R;
    tl::basic_strung_instrument<R> start{};
    tl::basic_wishes<R> wanted{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        tl::basic_strung_instrument<R>::describe(visit, self.start...);
        visit("wanted", self.wanted...);
    }
};

/// A number that can be explained.
struct named_number {
    std::string name;
    std::string kind;
    double value = 0;
    std::string words;
    std::string formula;
    std::string source;
};

template <class Described>
void add_leaves(std::vector<named_number>& list, const std::string& prefix, const std::string& meaning_prefix,
                const Described& model, const tl::string_names& names, const char* state) {
    tl::for_each_leaf(model, [&](std::string_view path, const auto& x) {
        const std::string meant = meaning_prefix + std::string(path);
        named_number n{prefix + std::string(path),
                       tl::kernel::leaf_kind<std::remove_cvref_t<decltype(x)>>::name,
                       tl::number_of(x),
                       tl::words_for(meant, names) + state,
                       "",
                       ""};
        if (const auto m = tl::meaning_of(meant)) {
            n.formula = m->formula;
            n.source = m->source;
        }
        list.push_back(std::move(n));
    });
}

void add_objects(std::vector<named_number>& list, const whole_job& w) {
    const tl::setup& s = w.a.planned ? w.a.plan.solved : w.a.found;
    for (std::size_t i = 0; i < w.a.objects.size(); ++i) {
        const auto answer = sections::under_strings(s, w.a.objects[i]);
        const std::string at = "objects[" + std::to_string(i) + "].", name = shown(w.a.objects[i].name);
        const auto add = [&](const char* what, const char* kind, double v, const std::string& words, const char* formula) {
            list.push_back({at + what, kind, v, name + ": " + words, formula, "plane geometry"});
        };
        add("open", "length", answer.open.value(), "least clearance under open strings",
            "string line - object's top at both its edges");
        if (answer.pressed) {
            add("pressed", "length", answer.pressed->value(), "least clearance, pressed at the last fret",
                "line from the pressed crest - object's top at both its edges");
        }
        add("along", "angle", answer.tilt.along.value(), "rise toward the bridge that lies along the strings",
            "plane of least squares through the strings' lines");
        add("across", "angle", answer.tilt.across.value(), "rise toward the treble that lies along the strings",
            "plane of least squares through the strings' lines");
    }
}

std::vector<named_number> all_numbers(const whole_job& w) {
    std::vector<named_number> list;
    if (w.a.planned) {
        add_leaves(list, "planned.", "", w.a.plan.solved, w.a.plan.solved.names, ", as planned");
        add_leaves(list, "plan.", "plan.", w.a.plan, w.a.plan.solved.names, "");
        add_leaves(list, "work.", "work.", tl::numbers_of(w.a.work), w.a.plan.solved.names, "");
    }
    add_leaves(list, "found.", "", w.a.found, w.a.found.names, ", as found");
    add_objects(list, w);
    return list;
}

/// The number of a name; one without "found." or "planned." is of the last state there is.
const named_number* find_number(const std::vector<named_number>& list, std::string_view name) {
    for (const std::string_view prefix : {"", "planned.", "found."}) {
        for (const auto& n : list) {
            if (n.name == std::string(prefix) + std::string(name)) { return &n; }
        }
    }
    return nullptr;
}

std::vector<tl::moving_input> inputs_of(const whole_job& w, const named_number& n) {
    const std::string_view name = n.name;
    if (name.starts_with("found.")) { return tl::explain({w.job.found.instrument, w.job.strung}, name.substr(6)).inputs; }
    if (name.starts_with("planned.")) { return tl::explain(w.a.plan.set, name.substr(8)).inputs; }
    if (name.starts_with("plan.")) {
        return tl::explain<plan_inputs>(
                   plan_inputs<double>{w.a.work.on, w.job.found.wanted},
                   [](const auto& in) { return tl::make_plan(in.start, in.wanted); }, name.substr(5))
            .inputs;
    }
    return {};
}

/// A small change of a result, with enough digits to be seen.
std::string change_in_words(std::string_view kind, double si) {
    char buffer[48];
    const bool length = kind == "length", angle = kind == "angle";
    std::snprintf(buffer, sizeof buffer, "%+.3g%s",
                  length  ? si * 1e3
                  : angle ? si * 180 / 3.14159265358979323846
                          : si,
                  length               ? " mm"
                  : angle              ? " deg"
                  : kind == "force"    ? " N"
                  : kind == "interval" ? " cents"
                  : kind == "number"   ? ""
                                       : " SI");
    return buffer;
}

std::optional<double> doubt_of(const whole_job& w, std::string_view name) {
    if (name.starts_with("found.")) { return w.found.give_or_take(name.substr(6)); }
    if (name.starts_with("planned.")) { return w.planned.give_or_take(name.substr(8)); }
    return std::nullopt;
}

/// The names of the strings that a number is of.
const tl::string_names& names_of(const whole_job& w, std::string_view name) {
    return (name.starts_with("found.") || !w.a.planned ? w.a.found : w.a.plan.solved).names;
}

constexpr std::size_t inputs_shown = 12;

} // namespace

std::string explain_list(const whole_job& w, measures m) {
    text_table table({"name", "value", "what"});
    for (const auto& n : all_numbers(w)) { table.row({n.name, number_in_words(n.kind, n.value, {}, false, m), n.words}); }
    return table.text();
}

std::optional<std::string> explain_text(const whole_job& w, const std::string& name, measures m) {
    const auto list = all_numbers(w);
    const named_number* n = find_number(list, typed_path(name, names_of(w, name), "--explain"));
    if (!n) { return std::nullopt; }
    std::string text = n->words + ": " + number_in_words(n->kind, n->value, doubt_of(w, n->name), false, m) + "\n";
    text += wrapped("named: " + tl::path_with_string(n->name, names_of(w, n->name)), 2) +
            wrapped("made as: " + n->formula, 2) + wrapped("after: " + n->source, 2);
    const auto inputs = inputs_of(w, *n);
    if (inputs.empty()) { return text; }
    const tl::string_names& names = names_of(w, n->name);
    const bool planned = w.a.planned && !n->name.starts_with("found.");
    const std::size_t slots = (planned ? w.a.plan.set.instrument : w.job.found.instrument).nut.slot_heights.size();
    text_table table({"moved by", "which is", "one hundredth more of it gives"});
    for (std::size_t i = 0; i < inputs.size() && i < inputs_shown; ++i) {
        const auto& in = inputs[i];
        table.row({tl::path_with_string(in.path, names, slots), number_in_words(in.kind, in.value, {}, false, m),
                   in.value == 0 ? "(0 now)" : change_in_words(n->kind, in.for_one_percent())});
    }
    text += table.text();
    if (inputs.size() > inputs_shown) {
        text += "  and " + std::to_string(inputs.size() - inputs_shown) + " inputs that move it less\n";
    }
    return text;
}

std::string nearest_name(const whole_job& w, std::string_view name) {
    const auto list = all_numbers(w);
    std::vector<std::string_view> names;
    for (const auto& n : list) {
        names.push_back(n.name);
        names.push_back(std::string_view(n.name).substr(n.name.find('.') + 1));
    }
    return std::string(nearest(name, names));
}

} // namespace bench_sheet
