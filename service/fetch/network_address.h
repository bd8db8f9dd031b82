// Which network addresses the program may connect to.
#pragma once

struct sockaddr;

namespace passage_brief {

/// Loopback, private, link-local, shared, documentation, multicast, reserved or unspecified; IPv4
/// inside IPv6 (mapped, compatible, NAT64, 6to4) is looked at as IPv4. Other families are not
/// public. RFC 6890 and its registries (from memory).
[[nodiscard]] bool is_public(const sockaddr* address);

}  // namespace passage_brief
