#include "bare_page.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <string>
#include <vector>

namespace passage_brief::bench {
namespace {

constexpr double kWidth_pt = 612;
constexpr double kHeight_pt = 792;

cairo_status_t append(void* bytes, const unsigned char* more, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(more), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string bare_page(const std::vector<std::string>& paragraphs) {
  std::string bytes;
  cairo_surface_t* surface =
      cairo_pdf_surface_create_for_stream(append, &bytes, kWidth_pt, kHeight_pt);
  cairo_t* cairo = cairo_create(surface);
  PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans Condensed 8px");
  double y = 20;
  for (const std::string& paragraph : paragraphs) {
    PangoLayout* layout = pango_cairo_create_layout(cairo);
    pango_layout_set_font_description(layout, font);
    pango_layout_set_width(layout, static_cast<int>((kWidth_pt - 40) / 2) * PANGO_SCALE);
    pango_layout_set_text(layout, paragraph.data(), static_cast<int>(paragraph.size()));
    int height = 0;
    pango_layout_get_size(layout, nullptr, &height);
    cairo_move_to(cairo, 20, y);
    pango_cairo_show_layout(cairo, layout);
    y += static_cast<double>(height) / PANGO_SCALE;
    g_object_unref(layout);
  }
  pango_font_description_free(font);
  cairo_destroy(cairo);
  cairo_surface_finish(surface);
  cairo_surface_destroy(surface);
  return bytes;
}

}  // namespace passage_brief::bench
