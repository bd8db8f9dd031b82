// Vessel file (JSON, "kind": "vessel") -> Vessel. The fields and their ranges stand in
// DEVELOPERS.md and vessel.schema.json, both made from vessel_form().
#pragma once

#include <expected>
#include <string_view>

#include "plan/vessel.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] Form<Vessel> vessel_form();
/// file: the name that problems are given under.
[[nodiscard]] std::expected<Vessel, Problems> read_vessel(std::string_view file,
                                                          std::string_view text);

}  // namespace passage_brief
