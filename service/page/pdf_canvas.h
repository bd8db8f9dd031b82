// Sheets of paper to draw on, and the PDF it becomes. The only file that sees Pango and Cairo.
//
// Coordinates in points (1/72 in) from the upper left corner, y downward. Letters come from DejaVu
// Sans and DejaVu Sans Condensed in the folder FONT_FOLDER of the build, through a fontconfig of
// our own, so that no other font of the machine takes part. The PDF carries the date it is given
// and no other: same calls, same bytes. Every function throws PdfFailed (page/pdf.h) when the
// machinery fails. Distinct canvases may be used by distinct threads.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "page/drawing.h"
#include "units/time.h"

namespace passage_brief {

struct PaperSize {
  double width_pt;
  double height_pt;
};

enum class Weight { regular, bold };
enum class Align { left, centre, right };

/// Words set in one size and weight; several runs make a paragraph.
struct TextRun {
  std::string text;
  double size_pt;
  Weight weight = Weight::regular;
};

/// Words laid out into a width, ready to be drawn. Belongs to the canvas that made it.
class TextBox {
 public:
  ~TextBox();
  TextBox(TextBox&&) noexcept;
  TextBox& operator=(TextBox&&) noexcept;
  [[nodiscard]] double height_pt() const;
  /// Of the longest line, as set.
  [[nodiscard]] double used_width_pt() const;
  /// From the top of the box to the line the first letters stand on.
  [[nodiscard]] double baseline_pt() const;

 private:
  friend class PdfCanvas;
  struct Layout;
  explicit TextBox(std::unique_ptr<Layout> layout);
  std::unique_ptr<Layout> layout_;
};

/// How an area is filled: tones and patterns that differ in black and white too.
enum class Fill { dark, water, bottom, unknown, hatched, barred, thinly_barred };

struct Pen {
  double width_pt;
  std::vector<double> dashes;  // empty: a whole line
};

class PdfCanvas {
 public:
  PdfCanvas(PaperSize paper, const std::string& title, Instant made_at);
  ~PdfCanvas();
  PdfCanvas(const PdfCanvas&) = delete;
  PdfCanvas& operator=(const PdfCanvas&) = delete;

  /// Wrapped between words, the lines as far apart as the font has it; a word longer than the width
  /// is broken.
  [[nodiscard]] TextBox lay_out(const std::vector<TextRun>& runs, Align align, double width_pt);
  /// With the box's upper left corner at `at`.
  void draw(const TextBox& text, Point at);
  /// With a rim of paper that keeps its letters apart from lines and patterns under them.
  void draw_rimmed(const TextBox& text, Point at);
  void stroke(const std::vector<Point>& points, const Pen& pen);
  void fill(const std::vector<Point>& outline, Fill fill);

  /// Structure for readers that speak the page aloud: "Document", "H1", "P", "Figure". Nest and
  /// close.
  void begin_tag(const char* name);
  void end_tag(const char* name);

  /// How far down the current page anything reaches, as it was drawn.
  [[nodiscard]] double lowest_pt() const;
  /// The pages so far stay as they are.
  void next_page();

  /// The pages as bytes. Nothing may be drawn after.
  [[nodiscard]] std::string finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace passage_brief
