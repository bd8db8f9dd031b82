#include "fetch/network_address.h"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>

#include <cstring>
#include <string>

namespace passage_brief {
namespace {

bool is_public_text(const std::string& text) {
  sockaddr_in v4{};
  v4.sin_family = AF_INET;
  if (inet_pton(AF_INET, text.c_str(), &v4.sin_addr) == 1) {
    return is_public(reinterpret_cast<const sockaddr*>(&v4));
  }
  sockaddr_in6 v6{};
  v6.sin6_family = AF_INET6;
  EXPECT_EQ(inet_pton(AF_INET6, text.c_str(), &v6.sin6_addr), 1) << text;
  return is_public(reinterpret_cast<const sockaddr*>(&v6));
}

// Blocks of RFC 6890 and the IANA special-purpose registries (from memory), both sides of the
// edges.
TEST(NetworkAddress, TellsPublicFromTheRest) {
  for (const char* text :
       {"8.8.8.8", "9.255.255.255", "11.0.0.0", "100.63.255.255", "100.128.0.0", "126.255.255.255",
        "128.0.0.0", "172.15.255.255", "172.32.0.0", "192.167.255.255", "192.169.0.0",
        "223.255.255.255", "2600::1", "::ffff:8.8.8.8", "64:ff9b::8.8.8.8"}) {
    EXPECT_TRUE(is_public_text(text)) << text;
  }
  for (const char* text : {"0.0.0.0",
                           "10.0.0.0",
                           "10.255.255.255",
                           "100.64.0.0",
                           "100.127.255.255",
                           "127.0.0.1",
                           "127.255.255.255",
                           "169.254.169.254",
                           "172.16.0.0",
                           "172.31.255.255",
                           "192.168.0.1",
                           "198.18.0.1",
                           "203.0.113.7",
                           "224.0.0.1",
                           "240.0.0.1",
                           "255.255.255.255",
                           "::",
                           "::1",
                           "::ffff:127.0.0.1",
                           "::ffff:10.1.2.3",
                           "::7f00:1",
                           "64:ff9b::10.0.0.1",
                           "2002:7f00:1::1",
                           "fe80::1",
                           "fc00::1",
                           "fd12::1",
                           "ff02::1",
                           "2001:db8::1"}) {
    EXPECT_FALSE(is_public_text(text)) << text;
  }
}

TEST(NetworkAddress, OtherFamiliesAreNotPublic) {
  sockaddr local{};
  local.sa_family = AF_UNIX;
  EXPECT_FALSE(is_public(&local));
}

}  // namespace
}  // namespace passage_brief
