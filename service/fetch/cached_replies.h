// Replies wherever they can be had: kept copies while they are fresh, the network past that, and
// kept copies again, labelled, where the network fails.
#pragma once

#include <expected>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "fetch/sources.h"
#include "fetch/transport.h"
#include "reading/problem.h"
#include "store/store.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

/// What a look at a reply's bytes says before they are believed and kept.
struct Looked {
  std::optional<Instant> issued;
};
using Look = std::function<std::expected<Looked, Problems>(const std::string& body)>;

struct WantedReply {
  std::string address;
  KeepFor keep;
  Look look;
  /// What is wanted next because of this one; may be empty.
  std::function<std::vector<WantedReply>(const std::string& body)> then = {};
};

struct ReplyCopy {
  std::string body;
  std::string note;  // empty: as new as can be; else since when it is kept and why no newer one is
};

/// By address; the error says why there is none that may be used.
using ReplyCopies = std::map<std::string, std::expected<ReplyCopy, std::string>>;

/// All at once, each address once, within the time. A reply that its look refuses is not kept, does
/// not take the place of a good copy, and is never used; nor is one issued more than an hour after
/// `now` or longer ago than its kind is usable. Trouble with the store is not an error: then
/// nothing is kept.
/// Its notes tell times in the zone of `now`.
[[nodiscard]] ReplyCopies replies_for(std::vector<WantedReply> wanted, const LocalTime& now,
                                      Interval within, Transport& transport, Store& store);

}  // namespace passage_brief
