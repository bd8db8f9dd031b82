// Windows as JSON: of a brief, and of the command that lists them.
#pragma once

#include <optional>
#include <string>

#include "brief/window.h"
#include "page/figures.h"
#include "page/json_object.h"
#include "page/page_choice.h"

namespace passage_brief {

class WindowJson {
 public:
  WindowJson(Units units, const Clock24& clock) : units_(units), clock_(clock) {}

  [[nodiscard]] OrderedJson window(const Window& window) const;
  [[nodiscard]] OrderedJson none(const std::optional<NoWindow>& none) const;
  [[nodiscard]] OrderedJson otherwise(const Otherwise& other) const;

 private:
  [[nodiscard]] OrderedJson edge(const std::optional<WindowEdge>& edge) const;
  [[nodiscard]] OrderedJson to_spare(const std::optional<ToSpare>& to_spare) const;
  [[nodiscard]] std::string time(Instant at) const;
  Units units_;
  const Clock24& clock_;
};

/// What `windows` prints: the span, `windows[]` as in a brief, and `no_window`.
[[nodiscard]] std::string windows_as_json(const WindowList& list, const Zone& zone, Units units);

}  // namespace passage_brief
