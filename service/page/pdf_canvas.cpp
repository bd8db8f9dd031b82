#include "page/pdf_canvas.h"

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "page/isolates.h"
#include "page/pdf.h"

namespace passage_brief {
namespace {

struct UnrefObject {
  void operator()(void* object) const { g_object_unref(object); }
};
template <class T>
using Object = std::unique_ptr<T, UnrefObject>;

struct FreeDescription {
  void operator()(PangoFontDescription* d) const { pango_font_description_free(d); }
};

/// Knows the page's font files and no rules, nothing of the machine's own.
FcConfig* make_font_config() {
  FcConfig* config = FcConfigCreate();
  for (const char* file :
       {"/DejaVuSans-Bold.ttf", "/DejaVuSansCondensed.ttf", "/DejaVuSansCondensed-Bold.ttf"}) {
    const std::string path = std::string(FONT_FOLDER) + file;
    if (FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(path.c_str())) != FcTrue) {
      FcConfigDestroy(config);
      throw PdfFailed("the font " + path +
                      " is not there (Debian packages fonts-dejavu-core and fonts-dejavu-extra)");
    }
  }
  return config;
}

Object<PangoFontMap> make_font_map() {
  Object<PangoFontMap> map(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
  if (!map) throw PdfFailed("Pango has no fonts through FreeType here");
  FcConfig* config = make_font_config();
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map.get()), config);
  FcConfigDestroy(config);  // the map holds it now
  // One point is one unit of the canvas.
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map.get()), 72);
  return map;
}

/// Reading the font files takes longer than drawing a page; Pango's maps are for one thread each.
PangoFontMap* font_map_of_this_thread() {
  thread_local const Object<PangoFontMap> map = make_font_map();
  return map.get();
}

cairo_status_t append(void* bytes, const unsigned char* more, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(more), length);
  return CAIRO_STATUS_SUCCESS;
}

void check_status(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw PdfFailed(std::string("Cairo: ") + cairo_status_to_string(status));
  }
}

PangoAlignment in_pango(Align align) {
  switch (align) {
    case Align::left:
      return PANGO_ALIGN_LEFT;
    case Align::centre:
      return PANGO_ALIGN_CENTER;
    case Align::right:
      return PANGO_ALIGN_RIGHT;
  }
  return PANGO_ALIGN_LEFT;
}

/// Tells apart all that is laid out differently.
std::string name_of_layout(const std::vector<TextRun>& runs, Align align, double width_pt) {
  std::string name = fmt::format("{} {}", static_cast<int>(align), width_pt);
  for (const TextRun& run : runs) {
    name += fmt::format("\n{} {} {} {}", run.size_pt, static_cast<int>(run.weight), run.text.size(),
                        run.text);
  }
  return name;
}

int in_pango_units(double points) { return static_cast<int>(std::lround(points * PANGO_SCALE)); }
double in_points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

}  // namespace

struct TextBox::Layout {
  Object<PangoLayout> pango;
};

TextBox::TextBox(std::unique_ptr<Layout> layout) : layout_(std::move(layout)) {}
TextBox::~TextBox() = default;
TextBox::TextBox(TextBox&&) noexcept = default;
TextBox& TextBox::operator=(TextBox&&) noexcept = default;

double TextBox::height_pt() const {
  PangoRectangle logical;
  pango_layout_get_extents(layout_->pango.get(), nullptr, &logical);
  return in_points(logical.height);
}

double TextBox::used_width_pt() const {
  PangoRectangle logical;
  pango_layout_get_extents(layout_->pango.get(), nullptr, &logical);
  return in_points(logical.width);
}

double TextBox::baseline_pt() const {
  return in_points(pango_layout_get_baseline(layout_->pango.get()));
}

struct PdfCanvas::State {
  std::string bytes;
  cairo_surface_t* surface;
  cairo_t* cairo;
  Object<PangoContext> context;
  // By name_of_layout(): a page that folds is laid out many times over, most of it alike.
  std::map<std::string, Object<PangoLayout>> laid_out;
  double lowest_pt = 0;
  void drawn_to(double y) { lowest_pt = std::max(lowest_pt, y); }
};

PdfCanvas::PdfCanvas(PaperSize paper, const std::string& title, Instant made_at)
    : state_(std::make_unique<State>()) {
  PangoFontMap* const fonts = font_map_of_this_thread();
  state_->surface =
      cairo_pdf_surface_create_for_stream(append, &state_->bytes, paper.width_pt, paper.height_pt);
  state_->cairo = cairo_create(state_->surface);
  const auto say = [this](cairo_pdf_metadata_t what, const std::string& text) {
    cairo_pdf_surface_set_metadata(state_->surface, what, text.c_str());
  };
  say(CAIRO_PDF_METADATA_TITLE, title);
  say(CAIRO_PDF_METADATA_CREATOR, "passage-brief");
  say(CAIRO_PDF_METADATA_CREATE_DATE, to_rfc3339(made_at));
  state_->context.reset(pango_font_map_create_context(fonts));
  cairo_font_options_t* options = cairo_font_options_create();
  // Letters stand where the type designer put them, whatever a screen would like.
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(state_->context.get(), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(state_->context.get(), FALSE);
  begin_tag("Document");
}

PdfCanvas::~PdfCanvas() {
  cairo_destroy(state_->cairo);
  cairo_surface_destroy(state_->surface);
}

TextBox PdfCanvas::lay_out(const std::vector<TextRun>& runs, Align align, double width_pt) {
  auto layout = std::make_unique<TextBox::Layout>();
  Object<PangoLayout>& held = state_->laid_out[name_of_layout(runs, align, width_pt)];
  if (held) {
    layout->pango.reset(PANGO_LAYOUT(g_object_ref(held.get())));
    return TextBox(std::move(layout));
  }
  held.reset(pango_layout_new(state_->context.get()));
  PangoLayout* const pango = held.get();
  layout->pango.reset(PANGO_LAYOUT(g_object_ref(pango)));
  const std::unique_ptr<PangoFontDescription, FreeDescription> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), "DejaVu Sans");
  pango_layout_set_font_description(pango, font.get());
  pango_layout_set_width(pango, in_pango_units(width_pt));
  pango_layout_set_wrap(pango, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(pango, in_pango(align));
  pango_layout_set_auto_dir(pango, FALSE);
  std::string text;
  PangoAttrList* attributes = pango_attr_list_new();
  for (const TextRun& run : runs) {
    const std::string words = with_isolates(run.text);
    const auto set = [&](PangoAttribute* attribute) {
      attribute->start_index = static_cast<guint>(text.size());
      attribute->end_index = static_cast<guint>(text.size() + words.size());
      pango_attr_list_insert(attributes, attribute);
    };
    // Running text is set narrow, as tall as the rest; large figures are not.
    set(pango_attr_family_new(run.size_pt < 12 ? "DejaVu Sans Condensed" : "DejaVu Sans"));
    set(pango_attr_size_new_absolute(in_pango_units(run.size_pt)));
    if (run.weight == Weight::bold) set(pango_attr_weight_new(PANGO_WEIGHT_BOLD));
    text += words;
  }
  // A hyphen at a line's end would come out of the page's text as a letter that was never there.
  pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
  pango_layout_set_text(pango, text.data(), static_cast<int>(text.size()));
  pango_layout_set_attributes(pango, attributes);
  pango_attr_list_unref(attributes);
  return TextBox(std::move(layout));
}

void PdfCanvas::draw(const TextBox& text, Point at) {
  cairo_set_source_rgb(state_->cairo, 0, 0, 0);
  cairo_move_to(state_->cairo, at.x, at.y);
  pango_cairo_show_layout(state_->cairo, text.layout_->pango.get());
  state_->drawn_to(at.y + text.height_pt());
}

void PdfCanvas::draw_rimmed(const TextBox& text, Point at) {
  cairo_t* const cairo = state_->cairo;
  cairo_save(cairo);
  cairo_move_to(cairo, at.x, at.y);
  pango_cairo_layout_path(cairo, text.layout_->pango.get());
  cairo_set_source_rgb(cairo, 1, 1, 1);
  cairo_set_line_width(cairo, 2);  // as in the drawings of HTML
  cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke(cairo);
  cairo_restore(cairo);
  draw(text, at);
}

namespace {

void trace(cairo_t* cairo, const std::vector<Point>& points) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i == 0) {
      cairo_move_to(cairo, points[i].x, points[i].y);
    } else {
      cairo_line_to(cairo, points[i].x, points[i].y);
    }
  }
}

/// Lines at a slant through the current clip, `gap` apart; `slant` is dx for one dy.
void hatch(cairo_t* cairo, double gap, double slant, double width) {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
  cairo_clip_extents(cairo, &left, &top, &right, &bottom);
  const double reach = std::abs(slant) * (bottom - top);
  for (double x = left - reach; x < right + reach; x += gap) {
    cairo_move_to(cairo, x, top);
    cairo_line_to(cairo, x + slant * (bottom - top), bottom);
  }
  cairo_set_line_width(cairo, width);
  cairo_stroke(cairo);
}

}  // namespace

void PdfCanvas::stroke(const std::vector<Point>& points, const Pen& pen) {
  cairo_t* const cairo = state_->cairo;
  cairo_save(cairo);
  trace(cairo, points);
  cairo_set_source_rgb(cairo, 0, 0, 0);
  cairo_set_line_width(cairo, pen.width_pt);
  cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash(cairo, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0);
  cairo_stroke(cairo);
  cairo_restore(cairo);
  for (const Point& point : points) state_->drawn_to(point.y);
}

void PdfCanvas::fill(const std::vector<Point>& outline, Fill fill) {
  cairo_t* const cairo = state_->cairo;
  cairo_save(cairo);
  trace(cairo, outline);
  cairo_close_path(cairo);
  switch (fill) {
    case Fill::dark:
      cairo_set_source_rgb(cairo, 0.1, 0.1, 0.1);
      cairo_fill(cairo);
      break;
    case Fill::water:
      cairo_set_source_rgb(cairo, 0.86, 0.92, 0.97);
      cairo_fill(cairo);
      break;
    case Fill::bottom:
      cairo_set_source_rgb(cairo, 0.80, 0.75, 0.66);
      cairo_fill_preserve(cairo);
      cairo_clip(cairo);
      cairo_set_source_rgb(cairo, 0.35, 0.30, 0.22);
      hatch(cairo, 3.5, -0.8, 0.4);
      break;
    case Fill::unknown:
      cairo_clip(cairo);
      cairo_set_source_rgb(cairo, 0.25, 0.25, 0.25);
      hatch(cairo, 6, 1, 0.4);
      hatch(cairo, 6, -1, 0.4);
      break;
    case Fill::hatched:
      cairo_clip(cairo);
      cairo_set_source_rgb(cairo, 0.15, 0.30, 0.50);
      hatch(cairo, 4, 0.6, 0.5);
      break;
    case Fill::barred:
      cairo_set_source_rgb(cairo, 0.66, 0.78, 0.90);
      cairo_fill_preserve(cairo);
      cairo_clip(cairo);
      cairo_set_source_rgb(cairo, 0.15, 0.30, 0.50);
      hatch(cairo, 3, 0, 0.4);
      break;
    case Fill::thinly_barred:
      cairo_clip(cairo);
      cairo_set_source_rgb(cairo, 0.15, 0.30, 0.50);
      hatch(cairo, 6, 0, 0.4);
      break;
  }
  cairo_restore(cairo);
  for (const Point& point : outline) state_->drawn_to(point.y);
}

double PdfCanvas::lowest_pt() const { return state_->lowest_pt; }

void PdfCanvas::next_page() {
  cairo_show_page(state_->cairo);
  state_->lowest_pt = 0;
}

void PdfCanvas::begin_tag(const char* name) { cairo_tag_begin(state_->cairo, name, nullptr); }
void PdfCanvas::end_tag(const char* name) { cairo_tag_end(state_->cairo, name); }

std::string PdfCanvas::finish() {
  end_tag("Document");
  cairo_show_page(state_->cairo);
  check_status(cairo_status(state_->cairo));
  cairo_surface_finish(state_->surface);
  check_status(cairo_surface_status(state_->surface));
  return std::move(state_->bytes);
}

}  // namespace passage_brief
