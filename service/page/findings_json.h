// What was found on one way, out or back, as the lists of a brief's JSON.
#pragma once

#include "page/json_object.h"

namespace passage_brief {

struct Findings;
class Zone;

class FindingsJson {
 public:
  /// Both must outlive it.
  FindingsJson(const Findings& found, const Zone& zone) : found_(found), zone_(zone) {}

  [[nodiscard]] OrderedJson legs() const;
  [[nodiscard]] OrderedJson depths() const;
  [[nodiscard]] OrderedJson bridges() const;
  [[nodiscard]] OrderedJson cables() const;
  [[nodiscard]] OrderedJson to_leeward() const;
  [[nodiscard]] OrderedJson set_toward() const;
  [[nodiscard]] OrderedJson marks() const;
  [[nodiscard]] OrderedJson level_shift() const;
  [[nodiscard]] OrderedJson back_until() const;

 private:
  const Findings& found_;
  const Zone& zone_;
};

}  // namespace passage_brief
