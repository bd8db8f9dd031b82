// What a caution says: text with the names of facts in braces.
//
//   "{reach}: {under_keel} under the keel at {time}."     values of facts
//   "Depth not known: {why under_keel}."                  why a fact is not known
//
// {name} is what the thing is called; where a caution is for one kind of subject only, the word of
// the kind says the same ({reach}, {bridge}).
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "reading/problem.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"

namespace passage_brief {

/// The pieces, with facts of the first kind, or nothing after adding every problem at the place.
[[nodiscard]] std::optional<std::vector<SayPiece>> read_say(std::string_view text,
                                                            const Place& place,
                                                            std::span<const SubjectKind> kinds);

/// The same pieces for another of the kinds they were read for.
[[nodiscard]] std::vector<SayPiece> say_for(const std::vector<SayPiece>& say, SubjectKind kind);

}  // namespace passage_brief
