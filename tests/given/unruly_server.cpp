#include "given/unruly_server.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace passage_brief::given {
namespace {

constexpr int kLook_ms = 10;

bool gone(int socket) {
  pollfd state{socket, POLLIN, 0};
  if (poll(&state, 1, kLook_ms) <= 0) return false;
  char byte = 0;
  return recv(socket, &byte, 1, MSG_PEEK | MSG_DONTWAIT) <= 0;
}

}  // namespace

bool Talk::say(std::string_view bytes) const {
  while (!bytes.empty()) {
    const auto sent = send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

void Talk::answer(const std::string& status, std::string_view body,
                  const std::string& more_headers) const {
  say("HTTP/1.1 " + status + "\r\nContent-Length: " + std::to_string(body.size()) +
      "\r\nConnection: close\r\n" + more_headers + "\r\n");
  say(body);
}

void Talk::drip(std::string_view bytes) const {
  for (const char byte : bytes) {
    if (!say(std::string_view(&byte, 1)) || gone(socket_) || *over_) return;
  }
}

void Talk::stall() const {
  while (!*over_ && !gone(socket_)) {
  }
}

void Talk::reset() const {
  const linger at_once{1, 0};
  setsockopt(socket_, SOL_SOCKET, SO_LINGER, &at_once, sizeof(at_once));
}

UnrulyServer::UnrulyServer(Script script)
    : script_(std::move(script)), listener_(socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof(address);
  auto* const any = reinterpret_cast<sockaddr*>(&address);
  if (listener_ < 0 || bind(listener_, any, size) != 0 || listen(listener_, 64) != 0 ||
      getsockname(listener_, any, &size) != 0) {
    throw std::runtime_error("no server on the loopback address");
  }
  port_ = ntohs(address.sin_port);
  accepting_ = std::thread([this] { serve(); });
}

UnrulyServer::~UnrulyServer() {
  over_ = true;
  accepting_.join();
  for (std::thread& thread : threads_) thread.join();
  close(listener_);
}

void UnrulyServer::serve() {
  while (!over_) {
    pollfd state{listener_, POLLIN, 0};
    if (poll(&state, 1, kLook_ms) <= 0) continue;
    const int socket = accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
    if (socket >= 0) threads_.emplace_back([this, socket] { talk(socket); });
  }
}

void UnrulyServer::talk(int socket) {
  ++talks_;
  std::string head;
  char byte = 0;
  while (!head.ends_with("\r\n\r\n") && recv(socket, &byte, 1, 0) == 1) head += byte;
  const auto begin = head.find(' ');
  const auto end = head.find(' ', begin + 1);
  if (begin != std::string::npos && end != std::string::npos) {
    script_(Talk(socket, head.substr(begin + 1, end - begin - 1), head, over_));
  }
  close(socket);
}

}  // namespace passage_brief::given
