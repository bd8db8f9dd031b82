// Bytes from elsewhere: the door to the network, so that tests can stand in for it.
#pragma once

#include <cstddef>
#include <expected>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "units/time.h"

namespace passage_brief {

struct Request {
  std::string address;
  std::string etag;           // of the kept copy, to ask whether it still holds; may be empty
  std::string last_modified;  // likewise
};

struct Answer {
  int status;
  std::string body;
  std::string etag;
  std::string last_modified;
};

/// An answer of any status, or why there is none: "did not answer within 10 s".
using Fetched = std::expected<Answer, std::string>;

/// What came of a request, and what is to be asked next because of it.
using OnAnswer = std::function<std::vector<Request>(const Request&, const Fetched&)>;

class Transport {
 public:
  Transport() = default;
  Transport(const Transport&) = delete;
  Transport& operator=(const Transport&) = delete;
  virtual ~Transport() = default;

  /// Asks for everything at once and returns when every request, also those added on the way, has
  /// its answer or the time is over; on_answer is called once for each request. Retries and
  /// redirects are inside. Never throws for what the other side does.
  virtual void fetch(std::vector<Request> requests, Interval time, const OnAnswer& on_answer) = 0;
};

}  // namespace passage_brief
