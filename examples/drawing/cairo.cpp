#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "back_end.hpp"
#include "leak_check.hpp"
#include "text.hpp"

namespace drawing {

namespace {

/// PDF points in a millimetre.
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

void set_ink(cairo_t* c, ink i) {
    const double d = darkness(i);
    cairo_set_source_rgb(c, d, d, d);
}
void trace(cairo_t* c, std::span<const place> points_of, bool closed) {
    cairo_new_path(c);
    for (const place& p : points_of) { cairo_line_to(c, p.x, p.y); }
    if (closed) { cairo_close_path(c); }
}
void set_letters(cairo_t* c, const lettering& l) {
    cairo_select_font_face(c, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
                           l.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(c, l.size);
}

/// Draws with cairo.
class cairo_back_end final : public back_end {
public:
    explicit cairo_back_end(cairo_t* c) : c_(c) {}

    void stroke(std::span<const place> points_of, const pen& p, bool closed) override {
        trace(c_, points_of, closed);
        stroke_traced(p);
    }
    void fill(std::span<const place> points_of, ink shade) override {
        trace(c_, points_of, true);
        set_ink(c_, shade);
        cairo_fill(c_);
    }
    void circle(place middle, double radius, const pen& p) override {
        trace_circle(middle, radius);
        stroke_traced(p);
    }
    void dot(place middle, double radius, ink shade) override {
        trace_circle(middle, radius);
        set_ink(c_, shade);
        cairo_fill(c_);
    }
    void letters(place start, const std::string& shown, const lettering& l) override {
        cairo_save(c_);
        cairo_translate(c_, start.x, start.y);
        if (l.upward) { cairo_rotate(c_, -std::numbers::pi / 2); }
        set_letters(c_, l);
        set_ink(c_, l.shade);
        cairo_new_path(c_);
        cairo_move_to(c_, 0, 0);
        cairo_show_text(c_, shown.c_str());
        cairo_new_path(c_);
        cairo_restore(c_);
    }
    double width(const std::string& shown, const lettering& l) override {
        set_letters(c_, l);
        cairo_text_extents_t extents{};
        cairo_text_extents(c_, shown.c_str(), &extents);
        return extents.x_advance;
    }
    void enter(const box& window, place origin) override {
        cairo_save(c_);
        cairo_new_path(c_);
        cairo_rectangle(c_, window.left, window.top, window.width, window.height);
        cairo_clip(c_);
        cairo_translate(c_, origin.x, origin.y);
    }
    void leave() override { cairo_restore(c_); }

private:
    void trace_circle(place middle, double radius) {
        cairo_new_path(c_);
        cairo_arc(c_, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
    }
    void stroke_traced(const pen& p) {
        set_ink(c_, p.shade);
        cairo_set_line_width(c_, p.width);
        const double dashes[] = {p.dash, p.gap};
        cairo_set_dash(c_, dashes, p.dash > 0 ? 2 : 0, 0);
        cairo_stroke(c_);
    }

    cairo_t* c_;
};

/// Draws one page onto a surface whose units are `scale` to a millimetre.
void draw_page(cairo_surface_t* s, const page& p, double scale) {
    const context held(cairo_create(s));
    cairo_t* c = held.get();
    require_success(cairo_status(c));
    const font_options options(cairo_font_options_create());
    // Letters as wide on a screen as on paper, so that a line fits either way.
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(c, options.get());
    cairo_scale(c, scale, scale);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    cairo_back_end drawn_by(c);
    canvas drawn(drawn_by);
    p.draw(drawn);
    require_success(cairo_status(c));
}

} // namespace

bool makes_pdf_and_png() { return true; }

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
