// Sources file (JSON, "kind": "sources") -> Sources.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "fetch/sources.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] Form<Sources> sources_form();
/// Paths in it are taken from the folder of `file`.
[[nodiscard]] std::expected<Sources, Problems> read_sources(const std::string& file,
                                                            std::string_view text);

}  // namespace passage_brief
