#include "rules/lesson_figure.h"

namespace passage_brief {

std::string in_words(LessonFigure figure) {
  switch (figure) {
    case LessonFigure::under_keel:
      return "under_keel";
    case LessonFigure::stop_at:
      return "stop_at";
    case LessonFigure::clearance:
      return "clearance";
    case LessonFigure::over_mast:
      return "over_mast";
    case LessonFigure::gauge_at_least:
      return "gauge_at_least";
    case LessonFigure::steer:
      return "steer";
    case LessonFigure::leeway:
      return "leeway";
    case LessonFigure::reached_in:
      return "reached_in";
  }
  return "";
}

}  // namespace passage_brief
