#include "fetch/cached_replies.h"

#include <fmt/format.h>

#include <chrono>
#include <expected>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "fetch/transport.h"
#include "reading/problem.h"
#include "store/store.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// Clocks differ; a forecast from further in the future is wrong, or ours is.
constexpr std::chrono::hours kClocksDiffer{1};
constexpr int kNotModified = 304;

std::string first_of(const Problems& problems) {
  if (problems.empty()) return "the reply cannot be used";
  return "the reply cannot be used: " +
         (problems.front().place.empty() ? "" : problems.front().place + ": ") +
         problems.front().words;
}

class Gathering {
 public:
  Gathering(const LocalTime& now, Store& store) : now_(now.at), zone_(now.zone), store_(store) {}

  /// Requests for what is not fresh on the shelf; what is, is taken, and what follows from it.
  std::vector<Request> want(std::vector<WantedReply> wanted) {
    std::vector<Request> requests;
    for (WantedReply& one : wanted) {
      const std::string address = one.address;
      if (wanted_.contains(address)) continue;
      const WantedReply& held = wanted_.emplace(address, std::move(one)).first->second;
      const std::optional<KeptReply> kept = kept_of(address);
      if (kept && now_ - kept->fetched <= held.keep.fresh_for && usable(held, *kept)) {
        append(requests, settle(held, ReplyCopy{kept->body, ""}));
      } else if (kept) {
        requests.push_back({address, kept->etag, kept->last_modified});
      } else {
        requests.push_back({address, "", ""});
      }
    }
    return requests;
  }

  std::vector<Request> take(const Request& request, const Fetched& fetched) {
    const WantedReply& wanted = wanted_.at(request.address);
    const std::expected<std::string, std::string> body = new_body(wanted, request, fetched);
    if (body) return settle(wanted, ReplyCopy{*body, ""});
    return settle_with_kept(wanted, body.error());
  }

  [[nodiscard]] ReplyCopies copies() && { return std::move(copies_); }

 private:
  /// The bytes of a good new reply, or of the kept one that was found unchanged; else why not.
  std::expected<std::string, std::string> new_body(const WantedReply& wanted,
                                                   const Request& request, const Fetched& fetched) {
    if (!fetched) return std::unexpected(fetched.error());
    if (fetched->status == kNotModified) {
      const auto kept = kept_of(request.address);
      if (!kept || (request.etag.empty() && request.last_modified.empty())) {
        return std::unexpected("the service says that nothing changed, and no copy is kept");
      }
      if (!usable(wanted, *kept)) return std::unexpected("it has not been issued anew");
      write([&] { store_.confirm_reply(request.address, now_); });
      return kept->body;
    }
    const auto looked = wanted.look(fetched->body);
    if (fetched->status != 200) {
      // The service's own words are in the look's refusal.
      return std::unexpected(
          fmt::format("the service answered with status {}{}", fetched->status,
                      looked || looked.error().empty() ? "" : ": " + looked.error().front().words));
    }
    if (!looked) return std::unexpected(first_of(looked.error()));
    const KeptReply fresh{fetched->body, now_, looked->issued, fetched->etag,
                          fetched->last_modified};
    if (looked->issued && *looked->issued > now_ + kClocksDiffer) {
      return std::unexpected("the reply says it was issued at " + in_words(*looked->issued) +
                             ", which is in the future");
    }
    if (!usable(wanted, fresh)) {
      return std::unexpected("the newest was issued at " + in_words(*looked->issued) +
                             ", which is too long ago");
    }
    write([&] { store_.keep_reply(request.address, fresh); });
    return fetched->body;
  }

  std::vector<Request> settle_with_kept(const WantedReply& wanted, const std::string& why) {
    const auto kept = kept_of(wanted.address);
    if (!kept) {
      copies_.emplace(wanted.address, std::unexpected(why));
      return {};
    }
    const std::string when = kept->issued ? "issued at " + in_words(*kept->issued)
                                          : "fetched at " + in_words(kept->fetched);
    if (!usable(wanted, *kept)) {
      copies_.emplace(wanted.address,
                      std::unexpected(why + "; the copy that is kept, " + when + ", is too old"));
      return {};
    }
    return settle(wanted, ReplyCopy{kept->body, fmt::format("kept copy {}; a newer one could not "
                                                            "be fetched at {}: {}",
                                                            when, in_words(now_), why)});
  }

  [[nodiscard]] std::string in_words(Instant at) const { return date_and_time(at, zone_); }

  std::vector<Request> settle(const WantedReply& wanted, ReplyCopy copy) {
    const auto [place, is_new] = copies_.emplace(wanted.address, std::move(copy));
    if (!wanted.then || !is_new) return {};
    return want(wanted.then(place->second->body));
  }

  [[nodiscard]] bool usable(const WantedReply& wanted, const KeptReply& kept) const {
    if (kept.fetched > now_ + kClocksDiffer) return false;
    return now_ - kept.issued.value_or(kept.fetched) <= wanted.keep.usable_for;
  }

  /// A kept copy is looked at again: the program that kept it may have believed more.
  [[nodiscard]] std::optional<KeptReply> kept_of(const std::string& address) const {
    try {
      auto kept = store_.reply(address);
      if (kept && !wanted_.at(address).look(kept->body)) return std::nullopt;
      return kept;
    } catch (const StoreFailure&) {
      return std::nullopt;
    }
  }

  template <class Write>
  static void write(const Write& action) {
    try {
      action();
    } catch (const StoreFailure&) {
      return;  // the reply is good; that it is not kept costs another request later
    }
  }

  static void append(std::vector<Request>& all, std::vector<Request> more) {
    for (Request& one : more) all.push_back(std::move(one));
  }

  Instant now_;
  Zone zone_;
  Store& store_;
  std::map<std::string, WantedReply> wanted_;
  ReplyCopies copies_;
};

}  // namespace

ReplyCopies replies_for(std::vector<WantedReply> wanted, const LocalTime& now, Interval within,
                        Transport& transport, Store& store) {
  Gathering gathering(now, store);
  std::vector<Request> requests = gathering.want(std::move(wanted));
  if (!requests.empty()) {
    transport.fetch(std::move(requests), within,
                    [&](const Request& request, const Fetched& fetched) {
                      return gathering.take(request, fetched);
                    });
  }
  return std::move(gathering).copies();
}

}  // namespace passage_brief
