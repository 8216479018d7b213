#include "page.hpp"

#include <algorithm>

#include <buzz_map.hpp>
#include <svg.hpp>
#include <tautline/job/job_words.hpp>

#include "pictures.hpp"
#include "style.hpp"

namespace bench_sheet {

namespace {

/// Longer than anything a job says.
constexpr std::size_t longest_text = 1U << 16U;

std::string escaped(std::string_view text) { return drawing::markup_text(text, longest_text); }
std::string element(const std::string& name, const std::string& inside, const std::string& attributes = "") {
    return "<" + name + (attributes.empty() ? "" : " " + attributes) + ">" + inside + "</" + name + ">\n";
}
/// A sentence as markup. The mark before its colon is bold.
std::string sentence(const block_sentence& s) {
    const auto mark = s.marked ? s.words.find(": ") : std::string::npos;
    return mark == std::string::npos ? escaped(s.words)
                                     : "<b>" + escaped(s.words.substr(0, mark)) + "</b>" + escaped(s.words.substr(mark));
}

/// Rows as a table. It scrolls sideways on a narrow screen.
/// @param caption its caption; empty if the text before it already names it
std::string table(const block_rows& rows, const std::string& told, const char* kind = "", const std::string& caption = "") {
    if (rows.empty()) { return ""; }
    std::string head, body;
    for (const std::string& cell : rows.front()) { head += "<th scope=\"col\">" + escaped(cell) + "</th>"; }
    for (std::size_t i = 1; i < rows.size(); ++i) {
        std::string cells;
        for (std::size_t k = 0; k < rows[i].size(); ++k) {
            cells += k == 0 ? "<th scope=\"row\">" + escaped(rows[i][k]) + "</th>" : "<td>" + escaped(rows[i][k]) + "</td>";
        }
        body += "<tr>" + cells + "</tr>\n";
    }
    return element("div",
                   element("table",
                           (caption.empty() ? "" : element("caption", escaped(caption))) + "<thead><tr>" + head +
                               "</tr></thead>\n<tbody>" + body + "</tbody>",
                           *kind ? "class=\"" + std::string(kind) + "\"" : ""),
                   "class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"" + escaped(told) + "\"");
}
std::string sentences(const std::vector<block_sentence>& all) {
    if (all.size() == 1) { return element("p", sentence(all.front())); }
    std::string items;
    for (const block_sentence& s : all) { items += element("li", sentence(s)); }
    return items.empty() ? "" : element("ul", items, "class=\"said\"");
}

/// A part of the page, with a link to it.
struct section {
    const char* id;
    const char* name; ///< its name in the list of links
    std::string text;
};
std::string headed(const std::string& heading, const std::string& rest) { return element("h2", escaped(heading)) + rest; }

/// The columns of slots and saddle, and their changes, from the table of the strings.
block_rows cut_rows(const block& strings) {
    block_rows rows;
    std::vector<std::size_t> taken;
    const auto& head = strings.rows.front();
    for (std::size_t k = 0; k < head.size(); ++k) {
        const auto begins = [&](const char* word) { return head[k].rfind(word, 0) == 0; };
        if (begins("nut slot") || begins("saddle") || begins("by ")) { taken.push_back(k); }
    }
    if (taken.empty()) { return rows; }
    for (const auto& row : strings.rows) {
        rows.push_back({row[0] + " " + row[1]});
        for (const std::size_t k : taken) { rows.back().push_back(row[k]); }
    }
    rows.front().front() = "string";
    return rows;
}

/// Lines as lists. Many short lines in a row are set in columns.
std::string listed(const std::vector<std::string>& lines) {
    constexpr std::size_t short_line = 22, many = 6;
    std::string text;
    for (std::size_t i = 0; i < lines.size();) {
        const auto short_to = [&](std::size_t k) {
            while (k < lines.size() && lines[k].size() <= short_line) { ++k; }
            return k;
        };
        const bool side_by_side = short_to(i) >= i + many;
        std::size_t end = side_by_side ? short_to(i) : i + 1;
        while (!side_by_side && end < lines.size() && short_to(end) < end + many) { ++end; }
        std::string items;
        for (; i < end; ++i) { items += element("li", escaped(lines[i])); }
        text += element("ul", items, side_by_side ? "class=\"short\"" : "");
    }
    return text;
}

std::string steps(const std::vector<step_block>& all) {
    std::string items;
    int number = 0;
    for (const step_block& s : all) {
        std::vector<std::string> said = s.lines;
        if (s.each_string) { said.emplace_back("each string\xE2\x80\x99s as in the table of all strings"); }
        const std::string lines = listed(said);
        items += element("li", element("label", "<input type=\"checkbox\"/> <span>" + std::to_string(++number) + ". " +
                                                    escaped(s.title) + "</span>") +
                                   element("p", "<b>In hand:</b> " + escaped(s.in_hand) + ".") + lines +
                                   (s.decision.empty() ? "" : element("p", "<b>Decide:</b> " + escaped(s.decision))) +
                                   element("p", "<b>Done when:</b> " + escaped(s.check)));
    }
    return element("ol", items, "class=\"steps\"");
}

std::string figure(const picture& p) {
    // The figure has the width as well, so that figures side by side share the room.
    const std::string drawn = drawing::svg_element(p.drawn, p.told);
    return element("figure",
                   element("figcaption", escaped(p.heading)) + drawn + table(p.numbers, p.heading) +
                       (p.words.empty() ? "" : element("p", escaped(p.words), "class=\"aside\"")),
                   "style=\"--wide:" + std::to_string(static_cast<int>(p.drawn.sheet.width + 1)) + "mm\"" +
                       (p.numbers.empty() ? "" : " class=\"side\""));
}

std::string folded(const std::string& heading, const std::string& inside, bool open = false) {
    return element("details", element("summary", escaped(heading)) + inside, open ? "open=\"open\"" : "");
}

/// Every number of a state, as a table or sentences for each part.
std::string every_number(const tl::job_state& s, measures m) {
    const auto in_one_line = [](std::string text) {
        std::replace(text.begin(), text.end(), '\n', ' ');
        return text;
    };
    std::vector<block> parts = detail_blocks(s, m);
    block objects{sections::objects_heading, {}, {}};
    for (const std::string& words : sections::object_sentences(s, m)) { objects.sentences.push_back({words}); }
    if (!objects.empty()) { parts.push_back(std::move(objects)); }
    std::string text;
    for (block& b : parts) {
        const std::string heading = in_one_line(b.heading);
        text += b.rows.empty() ? element("h3", escaped(heading)) : table(b.rows, heading, "every", heading);
        for (block_sentence& one : b.sentences) { one.words = in_one_line(std::move(one.words)); }
        text += sentences(b.sentences);
    }
    return text;
}

/// The drawings that the page has room for, and the names of the others.
std::string drawings(const whole_job& w, const block_options& how, std::size_t room) {
    const measures m = how.units;
    std::string text =
        element("p",
                "Heights from the side are stretched against lengths, by the factor that is said. Dashed and "
                "grey is as found, unbroken and black as planned. Nothing here is for measuring: templates in "
                "true size come from <code>--drawings</code>.",
                "class=\"aside\"");
    std::string left_out, maps, folded_maps, slots;
    std::size_t size = text.size();
    for (const picture& p : pictures_of(w, m, how.fine)) {
        const std::string one = figure(p);
        size += one.size();
        if (size > room) {
            left_out += (left_out.empty() ? "" : "; ") + p.heading;
            continue;
        }
        (p.kind == picture_kind::map          ? maps
         : p.kind == picture_kind::folded_map ? folded_maps
         : p.kind == picture_kind::slots      ? slots
                                              : text) += one;
    }
    if (!maps.empty()) {
        maps += element("figure",
                        drawing::svg_element(drawing::map_legend(drawn_in(m)),
                                             "What the patterns of the map mean: black with a ring touches; the denser a "
                                             "hatch, the less room there is."),
                        "style=\"--wide:78mm\"");
        text += element("div", maps, "class=\"maps\"");
    }
    if (!folded_maps.empty()) {
        text += folded("Least clearance, as found", element("div", folded_maps, "class=\"maps\""));
    }
    text += slots;
    if (!left_out.empty()) {
        text += element("p", "Too large for this page, to be had from <code>--drawings</code>: " + escaped(left_out) + ".");
    }
    return text;
}

} // namespace

std::string bench_page(const whole_job& w, measures m, bool fine) {
    const block_options how{.units = m, .fine = fine};
    const bool planned = w.states.size() > 1;
    const std::string title = w.job.title.empty() ? "Untitled instrument" : w.job.title;
    const block cannot = cannot_be_block(w, m, fine), summary = summary_block(w, how), readings = readings_block(w, m),
                strings = strings_block(w, how), objects = objects_block(w, m), changes = changes_block(w, {.units = m}),
                season = season_block(w, m), budget = budget_block(w, {.units = m}), findings = findings_block(w, how);

    std::vector<section> parts;
    if (!cannot.empty()) {
        parts.push_back({"cannot", "What cannot be",
                         element("div", headed("What cannot be", sentences(cannot.sentences)), "class=\"cannot\"")});
    }
    parts.push_back({"numbers", planned ? "Found, planned, wanted" : "As found",
                     headed(planned ? "Found, planned, wanted" : "As found",
                            table(summary.rows, "What is asked for", "asked") + sentences(summary.sentences))});
    const block_rows cut = planned ? cut_rows(strings) : block_rows{};
    if (!cut.empty()) {
        parts.push_back(
            {"cut", "What to cut",
             headed("What to cut", element("p",
                                           escaped("Slot bottoms over the board and over the " +
                                                   std::string(tl::top_word(w.last().on.instrument)) +
                                                   ", strings slack; by: their change, + is up. The steps say what is left "
                                                   "standing at first and what is cut after a reading."),
                                           "class=\"aside\"") +
                                       table(cut, "What to cut", "cut"))});
    }
    const auto all_steps = step_blocks(w, how);
    if (!all_steps.empty()) {
        parts.push_back({"steps", "Steps",
                         headed("Steps", element("p", "Ticks are not kept when the page is closed; on paper they are.",
                                                 "class=\"aside screen\"") +
                                             steps(all_steps))});
    }
    if (!readings.empty()) {
        parts.push_back({"readings", "Readings", headed(readings.heading, sentences(readings.sentences))});
    }
    if (!findings.empty()) {
        parts.push_back({"findings", "Findings", headed(findings.heading, sentences(findings.sentences))});
    }
    if (!objects.empty()) {
        parts.push_back({"objects", "Under the strings", headed(objects.heading, sentences(objects.sentences))});
    }
    std::string layout;
    for (const block& b : layout_blocks(w, m)) {
        const std::string told = b.rows.empty() ? "" : table(b.rows, b.heading);
        layout += b.rows.empty() ? headed(b.heading, sentences(b.sentences)) : folded(b.heading, told, true);
    }
    if (!layout.empty()) { parts.push_back({"layout", "Laid out", layout}); }
    const std::size_t before_drawings = parts.size();
    if (!season.empty()) {
        parts.push_back({"season", "The year",
                         headed(season.heading, table(season.rows, season.heading) + sentences(season.sentences))});
    }
    std::string details =
        folded("All strings",
               element("p", escaped(strings.heading), "class=\"aside\"") + table(strings.rows, "All strings"), true);
    for (const block* b : {&changes, &budget}) {
        if (b->empty()) { continue; }
        details += b->heading.empty() ? sentences(b->sentences)
                                      : folded(b->heading, table(b->rows, b->heading) + sentences(b->sentences));
    }
    for (const tl::job_state& s : w.states) {
        details += folded(s.name == "found" ? "Every number, as found" : "Every number, as planned", every_number(s, m));
    }
    parts.push_back({"details", "Details",
                     headed("Details", element("p", "Folded away here; on paper only what is unfolded is printed.",
                                               "class=\"aside screen\"") +
                                           details)});

    std::size_t size = std::string_view(page_style).size() + 8192;
    for (const section& s : parts) { size += s.text.size() + 256; }
    parts.insert(
        parts.begin() + static_cast<std::ptrdiff_t>(before_drawings),
        {"drawings", "Drawings", headed("Drawings", drawings(w, how, size < largest_page ? largest_page - size : 0))});

    std::string links, text;
    for (const section& s : parts) {
        links += element("a", s.name, "href=\"#" + std::string(s.id) + "\"");
        text += element("section", s.text, "id=\"" + std::string(s.id) + "\"");
    }
    const std::string ink = "var(--ink)";
    const std::string head =
        "<meta charset=\"utf-8\"/>\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
        "<meta name=\"color-scheme\" content=\"light dark\"/>\n" +
        element("title", escaped(title)) +
        element("style", page_style + drawing::svg_classes(ink, "var(--soft)", "var(--faint)", "var(--sheet)"));
    const std::string top = element("h1", escaped(title)) +
                            (w.job.planned && w.job.planned->title != w.job.title && !w.job.planned->title.empty()
                                 ? element("p", "Planned: " + escaped(w.job.planned->title))
                                 : "") +
                            element("p", escaped(drawing::caution), "class=\"aside\"") +
                            element("nav", links, "aria-label=\"Parts of the page\"");
    const std::string foot = element("h2", "Cautions") + element("p", escaped(tl::job_cautions));
    return "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n" + element("head", head) +
           element("body", element("header", top) + element("main", text) + element("footer", foot)) + "</html>\n";
}

} // namespace bench_sheet
