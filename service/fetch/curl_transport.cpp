#include "fetch/curl_transport.h"

#include <curl/curl.h>
#include <fmt/format.h>
#include <sys/socket.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstddef>
#include <list>
#include <memory>
#include <optional>
#include <random>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fetch/network_address.h"
#include "fetch/transport.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using SteadyTime = std::chrono::steady_clock::time_point;
using std::chrono::steady_clock;

constexpr int kMostRedirects = 3;
constexpr int kMostRetries = 2;
constexpr Interval kLongestWait = std::chrono::seconds(2);
/// Less than this for so long is a stalled reply.
constexpr long kLeastBytesPerSecond = 200;
constexpr long kPatienceWithSlow_s = 4;
constexpr long kMostHeaderBytes = 64 * 1024;

struct EasyDeleter {
  void operator()(CURL* handle) const { curl_easy_cleanup(handle); }
};
struct MultiDeleter {
  void operator()(CURLM* handle) const { curl_multi_cleanup(handle); }
};
struct ListDeleter {
  void operator()(curl_slist* list) const { curl_slist_free_all(list); }
};
struct UrlDeleter {
  void operator()(CURLU* url) const { curl_url_cleanup(url); }
};

/// One request on its way, through its redirects and retries.
struct Exchange {
  Request request;
  std::string address;  // where it has been sent to by now
  const NetworkLimits* limits;
  std::unique_ptr<CURL, EasyDeleter> handle = {};
  std::unique_ptr<curl_slist, ListDeleter> headers = {};
  Answer answer = {};
  long header_bytes = 0;
  int redirects = 0;
  int retries = 0;
  bool too_large = false;
  bool refused_address = false;
  std::optional<Interval> retry_after = {};
  SteadyTime due = {};
  bool running = false;
};

std::optional<std::string> part_of(const std::string& address, CURLUPart part) {
  const std::unique_ptr<CURLU, UrlDeleter> url(curl_url());
  if (!url || curl_url_set(url.get(), CURLUPART_URL, address.c_str(), 0) != CURLUE_OK) {
    return std::nullopt;
  }
  char* text = nullptr;
  if (curl_url_get(url.get(), part, &text, 0) != CURLUE_OK) return std::nullopt;
  std::string copy(text);
  curl_free(text);
  return copy;
}

/// Empty where the address may be asked, else why not.
std::string why_not(const std::string& address, const NetworkLimits& limits) {
  const bool controls =
      std::ranges::any_of(address, [](char c) { return static_cast<unsigned char>(c) <= 0x20U; });
  const auto scheme = part_of(address, CURLUPART_SCHEME);
  const auto host = part_of(address, CURLUPART_HOST);
  if (controls || !scheme || !host) return "its address cannot be read";
  if (*scheme != "https" && !(*scheme == "http" && limits.plain_http)) {
    return "its address is not https";
  }
  if (std::ranges::find(limits.hosts, *host) == limits.hosts.end()) {
    return "it sends on to " + *host + ", which is not an allowed host";
  }
  return {};
}

std::size_t on_body(char* data, std::size_t, std::size_t count, void* user) {
  auto& exchange = *static_cast<Exchange*>(user);
  if (exchange.answer.body.size() + count > exchange.limits->most_bytes) {
    exchange.too_large = true;
    return 0;
  }
  exchange.answer.body.append(data, count);
  return count;
}

bool named(std::string_view line, std::string_view name) {
  if (line.size() <= name.size() || line[name.size()] != ':') return false;
  return std::ranges::equal(line.substr(0, name.size()), name, [](char a, char b) {
    return (a >= 'A' && a <= 'Z' ? a - 'A' + 'a' : a) == b;
  });
}

std::string value_of(std::string_view line) {
  line.remove_prefix(line.find(':') + 1);
  while (!line.empty() && line.front() == ' ') line.remove_prefix(1);
  while (!line.empty() && (line.back() == '\r' || line.back() == '\n')) line.remove_suffix(1);
  return std::string(line.substr(0, 200));
}

std::size_t on_header(char* data, std::size_t, std::size_t count, void* user) {
  auto& exchange = *static_cast<Exchange*>(user);
  exchange.header_bytes += static_cast<long>(count);
  if (exchange.header_bytes > kMostHeaderBytes) {
    exchange.too_large = true;
    return 0;
  }
  const std::string_view line(data, count);
  if (named(line, "etag")) exchange.answer.etag = value_of(line);
  if (named(line, "last-modified")) exchange.answer.last_modified = value_of(line);
  if (named(line, "retry-after")) {
    const std::string text = value_of(line);
    int seconds = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
    if (error == std::errc() && seconds >= 0) exchange.retry_after = std::chrono::seconds(seconds);
  }
  return count;
}

/// The address itself is looked at, whatever name led to it.
curl_socket_t on_socket(void* user, curlsocktype, curl_sockaddr* address) {
  auto& exchange = *static_cast<Exchange*>(user);
  if (!exchange.limits->private_addresses && !is_public(&address->addr)) {
    exchange.refused_address = true;
    return CURL_SOCKET_BAD;
  }
  return socket(address->family, address->socktype | SOCK_CLOEXEC, address->protocol);
}

void put_header(Exchange& exchange, const std::string& name, const std::string& value) {
  if (value.empty() || value.find_first_of("\r\n") != std::string::npos) return;
  curl_slist* longer = curl_slist_append(exchange.headers.get(), (name + ": " + value).c_str());
  if (longer == nullptr) throw std::runtime_error("libcurl has no memory left");
  static_cast<void>(exchange.headers.release());
  exchange.headers.reset(longer);
}

void prepare(Exchange& exchange, Interval left) {
  const NetworkLimits& limits = *exchange.limits;
  exchange.handle.reset(curl_easy_init());
  if (!exchange.handle) throw std::runtime_error("libcurl cannot be started");
  exchange.answer = {};
  exchange.header_bytes = 0;
  exchange.headers.reset();
  exchange.retry_after.reset();
  put_header(exchange, "Accept", "application/geo+json, application/json");
  put_header(exchange, "If-None-Match", exchange.request.etag);
  if (exchange.request.etag.empty()) {
    put_header(exchange, "If-Modified-Since", exchange.request.last_modified);
  }
  CURL* curl = exchange.handle.get();
  const std::string agent = "passage-brief (" + limits.contact + ")";
  curl_easy_setopt(curl, CURLOPT_URL, exchange.address.c_str());
  curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, limits.plain_http ? "https,http" : "https");
  curl_easy_setopt(curl, CURLOPT_PROXY, "");
  curl_easy_setopt(curl, CURLOPT_FOLLOWLOCATION, 0L);
  curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L);
  // A name that cannot be looked up is left to its thread: waiting for it takes half a minute.
  curl_easy_setopt(curl, CURLOPT_QUICK_EXIT, 1L);
  curl_easy_setopt(curl, CURLOPT_USERAGENT, agent.c_str());
  curl_easy_setopt(curl, CURLOPT_HTTPHEADER, exchange.headers.get());
  curl_easy_setopt(curl, CURLOPT_ACCEPT_ENCODING, "gzip, deflate");
  curl_easy_setopt(curl, CURLOPT_HTTP_VERSION, static_cast<long>(CURL_HTTP_VERSION_1_1));
  curl_easy_setopt(curl, CURLOPT_CONNECTTIMEOUT_MS,
                   static_cast<long>(std::min(limits.connect, left).count()));
  curl_easy_setopt(curl, CURLOPT_TIMEOUT_MS, static_cast<long>(left.count()));
  curl_easy_setopt(curl, CURLOPT_LOW_SPEED_LIMIT, kLeastBytesPerSecond);
  curl_easy_setopt(curl, CURLOPT_LOW_SPEED_TIME, kPatienceWithSlow_s);
  curl_easy_setopt(curl, CURLOPT_WRITEFUNCTION, on_body);
  curl_easy_setopt(curl, CURLOPT_WRITEDATA, &exchange);
  curl_easy_setopt(curl, CURLOPT_HEADERFUNCTION, on_header);
  curl_easy_setopt(curl, CURLOPT_HEADERDATA, &exchange);
  curl_easy_setopt(curl, CURLOPT_OPENSOCKETFUNCTION, on_socket);
  curl_easy_setopt(curl, CURLOPT_OPENSOCKETDATA, &exchange);
  curl_easy_setopt(curl, CURLOPT_PRIVATE, &exchange);
  if (!limits.certificates.empty()) {
    curl_easy_setopt(curl, CURLOPT_CAINFO, limits.certificates.c_str());
  }
}

bool worth_a_retry(CURLcode result) {
  return result == CURLE_COULDNT_CONNECT || result == CURLE_COULDNT_RESOLVE_HOST ||
         result == CURLE_GOT_NOTHING || result == CURLE_RECV_ERROR || result == CURLE_SEND_ERROR;
}
bool worth_a_retry(int status) { return status == 408 || status == 429 || status >= 500; }

std::string words_of(CURLcode result, const Exchange& exchange, bool out_of_time) {
  if (exchange.too_large) return "the reply is larger than is read";
  if (exchange.refused_address) return "its address is a private one, which is not allowed";
  if (out_of_time) return "the service did not answer in time";
  switch (result) {
    case CURLE_OPERATION_TIMEDOUT:
      return "the service did not answer in time";
    case CURLE_COULDNT_RESOLVE_HOST:
      return "the name of the service could not be looked up";
    case CURLE_COULDNT_CONNECT:
      return "no connection to the service came about";
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CONNECT_ERROR:
    case CURLE_SSL_CACERT_BADFILE:
      return "the service could not prove who it is";
    case CURLE_PARTIAL_FILE:
    case CURLE_RECV_ERROR:
    case CURLE_GOT_NOTHING:
      return "the reply broke off";
    case CURLE_BAD_CONTENT_ENCODING:
    case CURLE_WRITE_ERROR:
      return "the reply could not be unpacked";
    default:
      return std::string("the reply could not be had: ") + curl_easy_strerror(result);
  }
}

class CurlTransport final : public Transport {
 public:
  explicit CurlTransport(NetworkLimits limits)
      : limits_(std::move(limits)), jitter_(std::random_device{}()) {
    static const CURLcode started = curl_global_init(CURL_GLOBAL_DEFAULT);
    multi_.reset(curl_multi_init());
    if (started != CURLE_OK || !multi_) throw std::runtime_error("libcurl cannot be started");
  }

  void fetch(std::vector<Request> requests, Interval time, const OnAnswer& on_answer) override {
    const SteadyTime end = steady_clock::now() + time;
    std::list<Exchange> open;  // a list: libcurl holds pointers to its elements
    add(std::move(requests), open);
    while (!open.empty()) {
      start_those_due(open, end, on_answer);
      int running = 0;
      curl_multi_perform(multi_.get(), &running);
      take_finished(open, end, on_answer);
      if (steady_clock::now() >= end) break;
      if (!open.empty()) curl_multi_poll(multi_.get(), nullptr, 0, wait_ms(open, end), nullptr);
    }
    // What an answer asks for next cannot be had any more, but may lead on to kept copies.
    for (auto late = open.begin(); late != open.end(); ++late) {
      if (late->running) curl_multi_remove_handle(multi_.get(), late->handle.get());
      add(on_answer(late->request,
                    std::unexpected(words_of(CURLE_OPERATION_TIMEDOUT, *late, true))),
          open);
    }
  }

 private:
  void add(std::vector<Request> requests, std::list<Exchange>& open) const {
    for (Request& request : requests) {
      std::string address = request.address;
      open.push_back(
          {.request = std::move(request), .address = std::move(address), .limits = &limits_});
    }
  }

  void finish(std::list<Exchange>& open, std::list<Exchange>::iterator which, const Fetched& what,
              const OnAnswer& on_answer) {
    const Request request = which->request;
    open.erase(which);
    add(on_answer(request, what), open);
  }

  void start_those_due(std::list<Exchange>& open, SteadyTime end, const OnAnswer& on_answer) {
    const SteadyTime now = steady_clock::now();
    for (auto next = open.begin(); next != open.end();) {
      const auto exchange = next++;
      if (exchange->running || exchange->due > now) continue;
      if (std::string why = why_not(exchange->address, limits_); !why.empty()) {
        finish(open, exchange, std::unexpected(std::move(why)), on_answer);
        continue;
      }
      prepare(*exchange, std::max(Interval(1), std::chrono::ceil<Interval>(end - now)));
      curl_multi_add_handle(multi_.get(), exchange->handle.get());
      exchange->running = true;
    }
  }

  void take_finished(std::list<Exchange>& open, SteadyTime end, const OnAnswer& on_answer) {
    int left = 0;
    while (CURLMsg* message = curl_multi_info_read(multi_.get(), &left)) {
      if (message->msg != CURLMSG_DONE) continue;
      const CURLcode result = message->data.result;
      const auto exchange = std::ranges::find_if(open, [&](const Exchange& candidate) {
        return candidate.handle.get() == message->easy_handle;
      });
      curl_multi_remove_handle(multi_.get(), message->easy_handle);
      if (exchange == open.end()) continue;
      exchange->running = false;
      conclude(open, exchange, result, end, on_answer);
    }
  }

  void conclude(std::list<Exchange>& open, std::list<Exchange>::iterator exchange, CURLcode result,
                SteadyTime end, const OnAnswer& on_answer) {
    long status = 0;
    char* redirect = nullptr;
    curl_easy_getinfo(exchange->handle.get(), CURLINFO_RESPONSE_CODE, &status);
    curl_easy_getinfo(exchange->handle.get(), CURLINFO_REDIRECT_URL, &redirect);
    exchange->answer.status = static_cast<int>(status);
    const bool spoiled = exchange->too_large || exchange->refused_address;
    const bool again = !spoiled && (result == CURLE_OK ? worth_a_retry(exchange->answer.status)
                                                       : worth_a_retry(result));
    if (again && wait_for_retry(*exchange, end)) return;
    if (result != CURLE_OK || spoiled) {
      return finish(open, exchange, std::unexpected(words_of(result, *exchange, false)), on_answer);
    }
    if (redirect != nullptr && status >= 300 && status < 400 && status != 304) {
      if (++exchange->redirects > kMostRedirects) {
        return finish(open, exchange, std::unexpected("it sends on more than 3 times"), on_answer);
      }
      exchange->address = redirect;
      exchange->due = {};
      return;
    }
    finish(open, exchange, std::move(exchange->answer), on_answer);
  }

  /// Whether there will be another try in time.
  bool wait_for_retry(Exchange& exchange, SteadyTime end) {
    if (exchange.retries >= kMostRetries) return false;
    const Interval most = std::min(kLongestWait, limits_.first_wait * (1 << exchange.retries));
    std::uniform_int_distribution<Interval::rep> some(0, most.count());
    const Interval wait = exchange.retry_after.value_or(Interval(some(jitter_)));
    if (steady_clock::now() + wait >= end) return false;
    ++exchange.retries;
    exchange.due = steady_clock::now() + wait;
    return true;
  }

  [[nodiscard]] static int wait_ms(const std::list<Exchange>& open, SteadyTime end) {
    SteadyTime next = end;
    for (const Exchange& exchange : open) {
      if (!exchange.running) next = std::min(next, exchange.due);
    }
    const auto wait = std::chrono::ceil<Interval>(next - steady_clock::now());
    return static_cast<int>(std::clamp<Interval::rep>(wait.count(), 0, 100));
  }

  NetworkLimits limits_;
  std::minstd_rand jitter_;
  std::unique_ptr<CURLM, MultiDeleter> multi_;
};

}  // namespace

std::unique_ptr<Transport> make_curl_transport(NetworkLimits limits) {
  return std::make_unique<CurlTransport>(std::move(limits));
}

}  // namespace passage_brief
