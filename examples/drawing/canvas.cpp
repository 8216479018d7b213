#include "canvas.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "leak_check.hpp"
#include "text.hpp"

namespace drawing {

namespace {

/// PDF and SVG points in a millimetre.
constexpr double points = 72 / 25.4;

template <class T, void (*Free)(T*)>
struct freed {
    void operator()(T* p) const { Free(p); }
};
using surface = std::unique_ptr<cairo_surface_t, freed<cairo_surface_t, cairo_surface_destroy>>;
using context = std::unique_ptr<cairo_t, freed<cairo_t, cairo_destroy>>;
using font_options = std::unique_ptr<cairo_font_options_t, freed<cairo_font_options_t, cairo_font_options_destroy>>;

void require_success(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS) {
        throw cannot_draw(std::string("cannot draw: ") + cairo_status_to_string(status));
    }
}

/// Takes what cairo writes. No exception may pass through it.
cairo_status_t take(void* bytes, const unsigned char* data, unsigned int size) noexcept {
    try {
        static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), size);
    } catch (...) { return CAIRO_STATUS_WRITE_ERROR; }
    return CAIRO_STATUS_SUCCESS;
}

constexpr double darkness(ink i) { return i == ink::black ? 0 : i == ink::grey ? 0.45 : i == ink::pale ? 0.75 : 1; }

bool finite(place p) { return std::isfinite(p.x) && std::isfinite(p.y); }

} // namespace

struct canvas::hidden {
    context c;
};

namespace {

void set_pen(cairo_t* c, const pen& p) {
    const double d = darkness(p.shade);
    cairo_set_source_rgb(c, d, d, d);
    cairo_set_line_width(c, p.width);
    const double dashes[] = {p.dash, p.gap};
    cairo_set_dash(c, dashes, p.dash > 0 ? 2 : 0, 0);
}
void set_ink(cairo_t* c, ink i) {
    const double d = darkness(i);
    cairo_set_source_rgb(c, d, d, d);
}
bool trace(cairo_t* c, std::span<const place> points_of, bool closed) {
    cairo_new_path(c);
    bool any = false;
    for (const place& p : points_of) {
        if (!finite(p)) { continue; }
        any ? cairo_line_to(c, p.x, p.y) : cairo_move_to(c, p.x, p.y);
        any = true;
    }
    if (any && closed) { cairo_close_path(c); }
    return any;
}
void set_letters(cairo_t* c, const lettering& l) {
    cairo_select_font_face(c, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
                           l.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(c, l.size);
}

/// Draws one page onto a surface whose units are `scale` to a millimetre.
void draw_page(cairo_surface_t* s, const page& p, double scale) {
    canvas::hidden h{context(cairo_create(s))};
    cairo_t* c = h.c.get();
    require_success(cairo_status(c));
    const font_options options(cairo_font_options_create());
    // Letters as wide on a screen as on paper, so that a line fits either way.
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(c, options.get());
    cairo_scale(c, scale, scale);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    canvas drawn(h);
    p.draw(drawn);
    require_success(cairo_status(c));
}

/// The page on a ground of its own, for where it is shown on a screen.
page on_white(const page& p) {
    return {p.sheet, [&p](canvas& c) {
                c.fill(p.sheet, ink::white);
                p.draw(c);
            }};
}

} // namespace

void canvas::line(place from, place to, const pen& p) {
    const place ends[] = {from, to};
    if (finite(from) && finite(to)) { path(ends, p); }
}
void canvas::path(std::span<const place> points_of, const pen& p, bool closed) {
    cairo_t* c = hidden_->c.get();
    if (!trace(c, points_of, closed)) { return; }
    set_pen(c, p);
    cairo_stroke(c);
}
void canvas::fill(std::span<const place> points_of, ink shade) {
    cairo_t* c = hidden_->c.get();
    if (!trace(c, points_of, true)) { return; }
    set_ink(c, shade);
    cairo_fill(c);
}
void canvas::rectangle(const box& b, const pen& p) {
    const place corners[] = {{b.left, b.top}, {b.right(), b.top}, {b.right(), b.bottom()}, {b.left, b.bottom()}};
    path(corners, p, true);
}
void canvas::fill(const box& b, ink shade) {
    const place corners[] = {{b.left, b.top}, {b.right(), b.top}, {b.right(), b.bottom()}, {b.left, b.bottom()}};
    fill(corners, shade);
}
void canvas::hatch(const box& b, double spacing, bool crossed, const pen& p) {
    within(b, {}, [&](canvas& inside) {
        for (double x = b.left - b.height; x < b.right(); x += spacing) {
            inside.line({x, b.bottom()}, {x + b.height, b.top}, p);
            if (crossed) { inside.line({x, b.top}, {x + b.height, b.bottom()}, p); }
        }
    });
}
void canvas::circle(place middle, double radius, const pen& p) {
    if (!finite(middle)) { return; }
    cairo_t* c = hidden_->c.get();
    cairo_new_path(c);
    cairo_arc(c, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
    set_pen(c, p);
    cairo_stroke(c);
}
void canvas::dot(place middle, double radius, ink shade) {
    if (!finite(middle)) { return; }
    cairo_t* c = hidden_->c.get();
    cairo_new_path(c);
    cairo_arc(c, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
    set_ink(c, shade);
    cairo_fill(c);
}

void canvas::text(place at, std::string_view letters, const lettering& l) {
    if (!finite(at)) { return; }
    cairo_t* c = hidden_->c.get();
    const std::string shown = printable(letters, 1000);
    const double width = text_width(shown, l);
    cairo_save(c);
    cairo_translate(c, at.x, at.y);
    if (l.upward) { cairo_rotate(c, -std::numbers::pi / 2); }
    const double start = l.side == align::left ? 0 : l.side == align::right ? -width : -width / 2;
    if (l.backed) { fill(box{start - 0.3, -0.82 * l.size, width + 0.6, 1.06 * l.size}, ink::white); }
    set_letters(c, l);
    set_ink(c, l.shade);
    cairo_new_path(c);
    cairo_move_to(c, start, 0);
    cairo_show_text(c, shown.c_str());
    cairo_new_path(c);
    cairo_restore(c);
}
double canvas::text_width(std::string_view letters, const lettering& l) {
    cairo_t* c = hidden_->c.get();
    set_letters(c, l);
    cairo_text_extents_t extents{};
    cairo_text_extents(c, printable(letters, 1000).c_str(), &extents);
    return extents.x_advance;
}
std::string canvas::fitted(std::string_view letters, double most, const lettering& l) {
    const std::string whole = printable(letters, 1000);
    if (text_width(whole, l) <= most) { return whole; }
    std::size_t fits = 0, too_many = character_count(whole);
    while (too_many - fits > 1) {
        const std::size_t half = (fits + too_many) / 2;
        (text_width(first_characters(whole, half) + "\xE2\x80\xA6", l) <= most ? fits : too_many) = half;
    }
    return first_characters(whole, fits) + "\xE2\x80\xA6";
}
void canvas::within(const box& window, place origin, const std::function<void(canvas&)>& draw) {
    cairo_t* c = hidden_->c.get();
    cairo_save(c);
    cairo_new_path(c);
    cairo_rectangle(c, window.left, window.top, window.width, window.height);
    cairo_clip(c);
    cairo_translate(c, origin.x, origin.y);
    draw(*this);
    cairo_restore(c);
}

std::string pdf_of(std::span<const page> pages, const std::string& title) {
    std::string bytes;
    {
        const box first = pages.empty() ? landscape(paper::a4) : pages.front().sheet;
        const surface s(cairo_pdf_surface_create_for_stream(take, &bytes, first.width * points, first.height * points));
        require_success(cairo_surface_status(s.get()));
        cairo_pdf_surface_set_metadata(s.get(), CAIRO_PDF_METADATA_TITLE, printable(title).c_str());
        for (const page& p : pages) {
            cairo_pdf_surface_set_size(s.get(), p.sheet.width * points, p.sheet.height * points);
            draw_page(s.get(), p, points);
            cairo_surface_show_page(s.get());
        }
        cairo_surface_finish(s.get());
        require_success(cairo_surface_status(s.get()));
    }
    return bytes;
}
std::string svg_of(const page& p) {
    std::string bytes;
    {
        const surface s(cairo_svg_surface_create_for_stream(take, &bytes, p.sheet.width * points, p.sheet.height * points));
        require_success(cairo_surface_status(s.get()));
        cairo_svg_surface_set_document_unit(s.get(), CAIRO_SVG_UNIT_PT);
        draw_page(s.get(), on_white(p), points);
        cairo_surface_finish(s.get());
        require_success(cairo_surface_status(s.get()));
    }
    return bytes;
}
std::string png_of(const page& p, double dots_per_inch) {
    const double scale = dots_per_inch / 25.4;
    const auto dots = [&](double mm) { return std::max(1, static_cast<int>(std::lround(mm * scale))); };
    const surface s(cairo_image_surface_create(CAIRO_FORMAT_RGB24, dots(p.sheet.width), dots(p.sheet.height)));
    require_success(cairo_surface_status(s.get()));
    draw_page(s.get(), on_white(p), scale);
    std::string bytes;
    require_success(cairo_surface_write_to_png_stream(s.get(), take, &bytes));
    return bytes;
}

} // namespace drawing
