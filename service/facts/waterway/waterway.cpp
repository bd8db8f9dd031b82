#include "facts/waterway/waterway.h"

#include <string>

#include "facts/waterway/bridge.h"
#include "facts/waterway/feature.h"

namespace passage_brief {

bool is_hard(Bottom bottom) { return bottom != Bottom::mud && bottom != Bottom::sand; }

std::string in_words(Bottom bottom) {
  switch (bottom) {
    case Bottom::mud:
      return "mud";
    case Bottom::sand:
      return "sand";
    case Bottom::hard_sand:
      return "hard sand";
    case Bottom::shell:
      return "shell";
    case Bottom::gravel:
      return "gravel";
    case Bottom::rock:
      return "rock";
    case Bottom::coral:
      return "coral";
    case Bottom::not_stated:
      return "not stated";
  }
  return {};
}

std::string in_words(SurveyQuality quality) {
  switch (quality) {
    case SurveyQuality::a1:
      return "A1";
    case SurveyQuality::a2:
      return "A2";
    case SurveyQuality::b:
      return "B";
    case SurveyQuality::c:
      return "C";
    case SurveyQuality::d:
      return "D";
    case SurveyQuality::channel_survey:
      return "channel survey";
    case SurveyQuality::captains_sounding:
      return "captain's sounding";
    case SurveyQuality::not_stated:
      return "not stated";
  }
  return {};
}

std::string in_words(KeptBy kept_by) {
  switch (kept_by) {
    case KeptBy::authority:
      return "authority";
    case KeptBy::private_with_permit:
      return "private with permit";
    case KeptBy::unofficial:
      return "unofficial";
    case KeptBy::not_stated:
      return "not stated";
  }
  return {};
}

std::string in_words(BridgeKind kind) {
  switch (kind) {
    case BridgeKind::fixed:
      return "fixed";
    case BridgeKind::bascule:
      return "bascule";
    case BridgeKind::swing:
      return "swing";
    case BridgeKind::lift:
      return "lift";
    case BridgeKind::pontoon:
      return "pontoon";
  }
  return {};
}

}  // namespace passage_brief
