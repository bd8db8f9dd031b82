// A server on the loopback address that says byte for byte what a test tells it to, so that it can
// break off, stall, drip and lie in ways that no honest server library does.
#pragma once

#include <atomic>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace passage_brief::given {

/// One connection, its request read.
class Talk {
 public:
  Talk(int socket, std::string path, std::string head, const std::atomic<bool>& over)
      : socket_(socket), path_(std::move(path)), head_(std::move(head)), over_(&over) {}
  [[nodiscard]] const std::string& path() const { return path_; }
  /// The request as it came, up to its empty line.
  [[nodiscard]] const std::string& head() const { return head_; }
  /// Whether all was sent: the other side may have gone.
  bool say(std::string_view bytes) const;
  /// A whole answer with its length.
  void answer(const std::string& status, std::string_view body,
              const std::string& more_headers = "") const;
  /// Byte by byte, with a rest after each.
  void drip(std::string_view bytes) const;
  /// Says nothing more until the other side goes or the server ends.
  void stall() const;
  /// The connection ends with a reset instead of an end.
  void reset() const;

 private:
  int socket_;
  std::string path_;
  std::string head_;
  const std::atomic<bool>* over_;
};

class UnrulyServer {
 public:
  using Script = std::function<void(const Talk&)>;
  /// Each connection has a thread of its own that runs the script once.
  explicit UnrulyServer(Script script);
  UnrulyServer(const UnrulyServer&) = delete;
  UnrulyServer& operator=(const UnrulyServer&) = delete;
  ~UnrulyServer();
  [[nodiscard]] std::string base() const { return "http://127.0.0.1:" + std::to_string(port_); }
  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] int talks() const { return talks_; }

 private:
  void serve();
  void talk(int socket);
  Script script_;
  int listener_;
  int port_ = 0;
  std::atomic<bool> over_{false};
  std::atomic<int> talks_{0};
  std::vector<std::thread> threads_;
  std::thread accepting_;
};

}  // namespace passage_brief::given
