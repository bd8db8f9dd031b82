// What the replies of all services have in common: a JSON tree of somebody else's making, read with
// nothing taken on trust.
#pragma once

#include <expected>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "reading/json_text.h"
#include "reading/problem.h"
#include "units/time.h"

namespace passage_brief {

/// The tree of a reply. Refused, in the service's own words where it gives any: a web page, text
/// that is no JSON, and every shape of error message (also those that come with status 200). `name`
/// is what the reply is called in a problem.
[[nodiscard]] std::expected<JsonTree, Problems> reply_tree(std::string_view name,
                                                           std::string_view text);

/// A member of an object; null where there is none, or no object.
[[nodiscard]] const nlohmann::json* member(const nlohmann::json* object, std::string_view key);
/// The element of that number; null where there is none.
[[nodiscard]] const nlohmann::json* element(const nlohmann::json* list, std::size_t index);

/// A number, or a text that holds one and nothing else (CO-OPS); nothing where it is null, absent
/// or an empty text. The message says what was found instead. Never NaN or infinite.
[[nodiscard]] std::expected<std::optional<double>, std::string> number_in(
    const nlohmann::json* value);
/// A text, or a whole number as one; empty where it is neither.
[[nodiscard]] std::string text_in(const nlohmann::json* value);
/// At most `most` bytes on one line: line ends, control characters and marks of writing direction
/// become spaces.
[[nodiscard]] std::string line_in(const nlohmann::json* value, std::size_t most = 300);

/// "2026-09-26 01:02" in GMT, as CO-OPS writes times (and with a T, as Open-Meteo does).
[[nodiscard]] std::expected<Instant, std::string> gmt_time_in(const nlohmann::json* value);
/// RFC 3339 with an offset.
[[nodiscard]] std::expected<Instant, std::string> instant_in(const nlohmann::json* value);

[[nodiscard]] std::unexpected<Problems> refused(std::string_view name, std::string place,
                                                std::string words);

}  // namespace passage_brief
