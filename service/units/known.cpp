#include "units/known.h"

#include <string>

namespace passage_brief {

std::string in_words(const NotKnown& why) {
  std::string words;
  for (const std::string& reason : why.reasons) {
    if (!words.empty()) words += "; ";
    words += reason;
  }
  return words;
}

}  // namespace passage_brief
