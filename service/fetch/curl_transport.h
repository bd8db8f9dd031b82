// The network through libcurl: everything at once, within one span of time.
//
// Kept: at most 3 redirects, each to an allowed host; https unless plain http is allowed; no
// loopback, private, link-local or reserved address, checked on the address that is connected to
// and not on its name, unless allowed; no proxy of the environment; certificates verified; at most
// so many bytes, counted after decompression, so that a small body cannot unfold into a large one.
// Asked again at most twice: where no connection came about or was cut before anything was read,
// and on 408, 429 and 5xx, after a random wait of at most 250 ms doubling to 2 s, or as Retry-After
// says where time allows.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "fetch/transport.h"
#include "units/time.h"

namespace passage_brief {

struct NetworkLimits {
  std::string contact;             // in the User-Agent: a mail address or web page
  std::vector<std::string> hosts;  // that may be asked; a redirect elsewhere is refused
  bool private_addresses = false;
  bool plain_http = false;
  std::string certificates;  // a PEM file of one's own authorities; empty: those of the system
  std::size_t most_bytes = std::size_t{4} * 1024 * 1024;
  Interval connect = std::chrono::seconds(3);
  Interval first_wait = std::chrono::milliseconds(250);
};

[[nodiscard]] std::unique_ptr<Transport> make_curl_transport(NetworkLimits limits);

}  // namespace passage_brief
