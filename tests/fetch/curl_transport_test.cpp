#include "fetch/curl_transport.h"

#include <gtest/gtest.h>
#include <httplib.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "fetch/transport.h"
#include "given/certificates.h"
#include "given/unruly_server.h"

namespace passage_brief {
namespace {

using given::Talk;
using given::UnrulyServer;

NetworkLimits open_limits() {
  NetworkLimits limits;
  limits.contact = "tests@example.org";
  limits.hosts = {"127.0.0.1"};
  limits.private_addresses = true;
  limits.plain_http = true;
  limits.first_wait = std::chrono::milliseconds(1);
  return limits;
}

Fetched fetched(const NetworkLimits& limits, const Request& request) {
  Fetched answer = std::unexpected("nothing was said");
  make_curl_transport(limits)->fetch({request}, std::chrono::seconds(10),
                                     [&](const Request&, const Fetched& got) {
                                       answer = got;
                                       return std::vector<Request>{};
                                     });
  return answer;
}

TEST(CurlTransport, SaysWhoAsksAndWhatIsKept) {
  std::string head;
  const UnrulyServer server([&](const Talk& talk) {
    head = talk.head();
    talk.answer("200 OK", "body",
                "ETag: \"e2\"\r\nLast-Modified: Sun, 14 Jun 2026 10:12:00 GMT\r\n");
  });
  const auto answer = fetched(open_limits(), {server.base() + "/x?a=b", "\"e1\"", ""});
  ASSERT_TRUE(answer) << answer.error();
  EXPECT_EQ(answer->status, 200);
  EXPECT_EQ(answer->body, "body");
  EXPECT_EQ(answer->etag, "\"e2\"");
  EXPECT_EQ(answer->last_modified, "Sun, 14 Jun 2026 10:12:00 GMT");
  EXPECT_TRUE(head.starts_with("GET /x?a=b HTTP/1.1\r\n")) << head;
  EXPECT_NE(head.find("User-Agent: passage-brief (tests@example.org)\r\n"), std::string::npos);
  EXPECT_NE(head.find("If-None-Match: \"e1\"\r\n"), std::string::npos);
}

TEST(CurlTransport, PrivateAddressesNeedLeave) {
  const UnrulyServer server([](const Talk& talk) { talk.answer("200 OK", "secret"); });
  NetworkLimits limits = open_limits();
  limits.private_addresses = false;
  const auto answer = fetched(limits, {server.base() + "/", "", ""});
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error(), "its address is a private one, which is not allowed");
  EXPECT_EQ(server.talks(), 0);
}

TEST(CurlTransport, PlainHttpAndOtherHostsNeedLeave) {
  const UnrulyServer server([](const Talk& talk) { talk.answer("200 OK", "x"); });
  NetworkLimits limits = open_limits();
  limits.plain_http = false;
  EXPECT_EQ(fetched(limits, {server.base() + "/", "", ""}).error(), "its address is not https");
  limits = open_limits();
  limits.hosts = {"example.org"};
  EXPECT_FALSE(fetched(limits, {server.base() + "/", "", ""}));
  for (const char* address : {"file:///etc/hostname", "gopher://127.0.0.1/", "127.0.0.1", "",
                              "http://127.0.0.1/a b", "http://127.0.0.1/\r\nX: y"}) {
    EXPECT_FALSE(fetched(open_limits(), {address, "", ""})) << address;
  }
  EXPECT_EQ(server.talks(), 0);
}

// A label of more than 63 letters is no name, so no server is asked for it (RFC 1035, 2.3.4).
TEST(CurlTransport, NamesThatCannotBeLookedUp) {
  NetworkLimits limits = open_limits();
  std::string name(70, 'a');
  name += ".invalid";
  limits.hosts = {name};
  EXPECT_FALSE(fetched(limits, {"http://" + name + "/", "", ""}));
}

TEST(CurlTransport, NobodyThere) {
  int port = 0;
  {
    const UnrulyServer gone([](const Talk&) {});
    port = gone.port();
  }
  EXPECT_EQ(
      fetched(open_limits(), {"http://127.0.0.1:" + std::to_string(port) + "/", "", ""}).error(),
      "no connection to the service came about");
}

TEST(CurlTransport, AsksForAllAtOnceAndForWhatFollows) {
  // The first two wait for each other: one after the other they would wait for ever.
  std::atomic<int> waiting{0};
  const UnrulyServer server([&](const Talk& talk) {
    if (talk.path() == "/a" || talk.path() == "/b") {
      ++waiting;
      while (waiting < 2) std::this_thread::yield();
    }
    talk.answer("200 OK", talk.path());
  });
  std::map<std::string, std::string> bodies;
  make_curl_transport(open_limits())
      ->fetch({{server.base() + "/a", "", ""}, {server.base() + "/b", "", ""}},
              std::chrono::seconds(30), [&](const Request& request, const Fetched& got) {
                bodies[request.address.substr(server.base().size())] = got.value().body;
                std::vector<Request> next;
                if (got->body == "/a") next.push_back({server.base() + "/after", "", ""});
                return next;
              });
  EXPECT_EQ(bodies,
            (std::map<std::string, std::string>{{"/a", "/a"}, {"/b", "/b"}, {"/after", "/after"}}));
}

TEST(CurlTransport, AsksThreeTimesAtMost) {
  const UnrulyServer server([](const Talk& talk) { talk.answer("503 Service Unavailable", "no"); });
  const auto answer = fetched(open_limits(), {server.base() + "/", "", ""});
  ASSERT_TRUE(answer) << answer.error();
  EXPECT_EQ(answer->status, 503);
  EXPECT_EQ(server.talks(), 3);
}

// TLS, with certificates made here.
class TlsServer {
 public:
  explicit TlsServer(const given::Certificate& certificate)
      : server_(certificate.certificate.get(), certificate.key.get()) {
    server_.Get("/", [](const httplib::Request&, httplib::Response& response) {
      response.set_content("over TLS", "text/plain");
    });
    port_ = server_.bind_to_any_port("127.0.0.1");
    thread_ = std::thread([this] { server_.listen_after_bind(); });
    while (!server_.is_running()) std::this_thread::yield();
  }
  ~TlsServer() {
    server_.stop();
    thread_.join();
  }
  [[nodiscard]] std::string base() const { return "https://127.0.0.1:" + std::to_string(port_); }

 private:
  httplib::SSLServer server_;
  int port_ = 0;
  std::thread thread_;
};

Fetched fetched_over_tls(const given::Certificate& shown, const given::Certificate& trusted) {
  const auto file = std::filesystem::path(testing::TempDir()) / "passage-brief-authorities.pem";
  std::ofstream(file) << trusted.pem();
  NetworkLimits limits = open_limits();
  limits.plain_http = false;
  limits.certificates = file.string();
  const TlsServer server(shown);
  const auto answer = fetched(limits, {server.base() + "/", "", ""});
  std::filesystem::remove(file);
  return answer;
}

TEST(CurlTransport, TlsIsVerified) {
  const auto good = given::certificate_for("IP:127.0.0.1", 2120);
  const auto answer = fetched_over_tls(good, good);
  ASSERT_TRUE(answer) << answer.error();
  EXPECT_EQ(answer->body, "over TLS");
  const char* const kRefused = "the service could not prove who it is";
  const auto expired = given::certificate_for("IP:127.0.0.1", 2001);
  EXPECT_EQ(fetched_over_tls(expired, expired).error(), kRefused);
  const auto other_host = given::certificate_for("DNS:elsewhere.invalid", 2120);
  EXPECT_EQ(fetched_over_tls(other_host, other_host).error(), kRefused);
  const auto unknown = given::certificate_for("IP:127.0.0.1", 2120);
  EXPECT_EQ(fetched_over_tls(unknown, good).error(), kRefused);
}

TEST(CurlTransport, TlsToWhatSpeaksNone) {
  const UnrulyServer server([](const Talk& talk) { talk.answer("200 OK", "plain"); });
  EXPECT_FALSE(
      fetched(open_limits(), {"https://127.0.0.1:" + std::to_string(server.port()) + "/", "", ""}));
}

}  // namespace
}  // namespace passage_brief
