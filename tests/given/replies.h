// Replies in the documented shapes of the services (tests/given/replies; invented), and stand-ins
// for the network.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "fetch/asked.h"
#include "fetch/sources.h"
#include "fetch/transport.h"

namespace passage_brief::given {

/// tests/given/replies/NAME.
[[nodiscard]] std::string reply_text(const std::string& name);

/// What a query asks for; throws when it is none.
[[nodiscard]] Asked asked(const std::string& query);

/// Answers by the path that an address begins with, after its host; what is not listed is not to be
/// reached. Counts what it was asked.
class ScriptedTransport final : public Transport {
 public:
  std::map<std::string, Fetched> answers;  // by the beginning of the path
  std::vector<Request> asked;

  /// The good replies of tests/given/replies.
  void answer_well();
  void fetch(std::vector<Request> requests, Interval time, const OnAnswer& on_answer) override;
};

/// Everything there is, from services at one base address: tide, subordinate tide, current, wind
/// from both services, alerts.
[[nodiscard]] Sources all_sources(const std::string& base);

}  // namespace passage_brief::given
