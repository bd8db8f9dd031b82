#include "rules/verdict.h"

#include <string>

namespace passage_brief {

std::string in_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::within_limits:
      return "within limits";
    case Verdict::cautions:
      return "cautions";
    case Verdict::cannot_tell:
      return "cannot tell";
    case Verdict::outside_limits:
      return "outside limits";
  }
  return {};
}

std::string in_words(Grade grade) {
  switch (grade) {
    case Grade::danger:
      return "danger";
    case Grade::warning:
      return "warning";
    case Grade::caution:
      return "caution";
    case Grade::notice:
      return "notice";
  }
  return {};
}

}  // namespace passage_brief
