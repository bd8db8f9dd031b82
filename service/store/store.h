// What is kept between runs: replies of services, byte for byte, with when they came and what to
// ask again with. Knows no seamanship.
//
// Trouble with the disk or the database throws StoreFailure.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>

#include "units/time.h"

namespace passage_brief {

class StoreFailure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// A reply as it came, under the address it was asked for at.
struct KeptReply {
  std::string body;
  Instant fetched;                // or found to be unchanged, whichever is later
  std::optional<Instant> issued;  // by its publisher, where the reply says so
  std::string etag;               // validators of RFC 9110; empty: none
  std::string last_modified;
  bool operator==(const KeptReply&) const = default;
};

class Store {
 public:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  virtual ~Store() = default;

  /// Nothing where none is kept, and where what is kept is not what was written (its hash differs).
  [[nodiscard]] virtual std::optional<KeptReply> reply(const std::string& address) const = 0;
  /// Takes the place of what was kept under the address.
  virtual void keep_reply(const std::string& address, const KeptReply& reply) = 0;
  /// The one that is kept was found to be unchanged at that time.
  virtual void confirm_reply(const std::string& address, Instant fetched) = 0;
  /// Takes away what was fetched before a time.
  virtual void forget_replies_before(Instant fetched) = 0;
};

}  // namespace passage_brief
