#include "store/sqlite_store.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "store/store.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// "pbrf" in ASCII: a file that says another word is somebody else's.
constexpr int kApplication = 0x70627266;
constexpr int kEdition = 1;
constexpr int kPatience_ms = 2000;

constexpr const char* kTables =
    "CREATE TABLE IF NOT EXISTS replies ("
    " address TEXT PRIMARY KEY, body BLOB NOT NULL, hash INTEGER NOT NULL,"
    " fetched_ms INTEGER NOT NULL, issued_ms INTEGER, etag TEXT NOT NULL,"
    " last_modified TEXT NOT NULL) STRICT, WITHOUT ROWID";

/// FNV-1a, 64 bits: finds a body that was damaged, not one that was forged.
std::int64_t hash_of(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
  return static_cast<std::int64_t>(hash);
}

std::int64_t in_ms(Instant at) { return at.time_since_epoch().count(); }
Instant from_ms(std::int64_t ms) { return Instant(Interval(ms)); }

class Connection {
 public:
  explicit Connection(const std::string& file) {
    sqlite3* opened = nullptr;
    const int result =
        sqlite3_open_v2(file.c_str(), &opened, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
    handle_.reset(opened);
    if (result != SQLITE_OK) throw StoreFailure("cannot open the store " + file + ": " + words());
    sqlite3_busy_timeout(opened, kPatience_ms);
  }
  [[nodiscard]] sqlite3* get() const { return handle_.get(); }
  [[nodiscard]] std::string words() const {
    return handle_ ? sqlite3_errmsg(handle_.get()) : "out of memory";
  }
  void run(const std::string& sql) const {
    if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
      throw StoreFailure("the store failed: " + words());
    }
  }

 private:
  struct Closer {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  std::unique_ptr<sqlite3, Closer> handle_;
};

/// One statement with its values, numbered from 1.
class Statement {
 public:
  Statement(const Connection& connection, std::string_view sql) : connection_(connection) {
    sqlite3_stmt* made = nullptr;
    sqlite3_prepare_v2(connection.get(), sql.data(), static_cast<int>(sql.size()), &made, nullptr);
    handle_.reset(made);
    if (!handle_) throw StoreFailure("the store failed: " + connection.words());
  }
  Statement& text(int place, std::string_view value) {
    sqlite3_bind_text64(handle_.get(), place, value.data(), value.size(), SQLITE_TRANSIENT,
                        SQLITE_UTF8);
    return *this;
  }
  Statement& bytes(int place, std::string_view value) {
    sqlite3_bind_blob64(handle_.get(), place, value.data(), value.size(), SQLITE_TRANSIENT);
    return *this;
  }
  Statement& number(int place, std::int64_t value) {
    sqlite3_bind_int64(handle_.get(), place, value);
    return *this;
  }
  /// Whether there is a row.
  bool step() {
    const int result = sqlite3_step(handle_.get());
    if (result == SQLITE_ROW) return true;
    if (result != SQLITE_DONE) throw StoreFailure("the store failed: " + connection_.words());
    return false;
  }
  [[nodiscard]] std::int64_t number_at(int column) const {
    return sqlite3_column_int64(handle_.get(), column);
  }
  [[nodiscard]] bool null_at(int column) const {
    return sqlite3_column_type(handle_.get(), column) == SQLITE_NULL;
  }
  [[nodiscard]] std::string bytes_at(int column) const {
    const void* data = sqlite3_column_blob(handle_.get(), column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_.get(), column));
    return data == nullptr ? std::string() : std::string(static_cast<const char*>(data), size);
  }

 private:
  struct Finalizer {
    void operator()(sqlite3_stmt* handle) const { sqlite3_finalize(handle); }
  };
  const Connection& connection_;
  std::unique_ptr<sqlite3_stmt, Finalizer> handle_;
};

std::int64_t first_number(const Connection& connection, std::string_view sql) {
  Statement asked(connection, sql);
  return asked.step() ? asked.number_at(0) : 0;
}

void prepare(const Connection& connection, const std::string& file) {
  const std::int64_t application = first_number(connection, "PRAGMA application_id");
  const bool empty = first_number(connection, "SELECT count(*) FROM sqlite_schema") == 0;
  if (application != kApplication && !(application == 0 && empty)) {
    throw StoreFailure("the store " + file + " is another program's data base");
  }
  if (!empty && first_number(connection, "PRAGMA user_version") > kEdition) {
    throw StoreFailure("the store " + file + " was made by a later edition of this program");
  }
  connection.run("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA mmap_size = 0");
  connection.run(
      fmt::format("BEGIN IMMEDIATE; {}; PRAGMA application_id = {};"
                  " PRAGMA user_version = {}; COMMIT",
                  kTables, kApplication, kEdition));
}

class SqliteStore final : public Store {
 public:
  explicit SqliteStore(const std::string& file) : connection_(file) { prepare(connection_, file); }

  [[nodiscard]] std::optional<KeptReply> reply(const std::string& address) const override {
    Statement found(connection_,
                    "SELECT body, hash, fetched_ms, issued_ms, etag, last_modified FROM replies"
                    " WHERE address = ?1");
    found.text(1, address);
    if (!found.step()) return std::nullopt;
    KeptReply kept{.body = found.bytes_at(0),
                   .fetched = from_ms(found.number_at(2)),
                   .issued = std::nullopt,
                   .etag = found.bytes_at(4),
                   .last_modified = found.bytes_at(5)};
    if (!found.null_at(3)) kept.issued = from_ms(found.number_at(3));
    if (hash_of(kept.body) != found.number_at(1)) return std::nullopt;
    return kept;
  }

  void keep_reply(const std::string& address, const KeptReply& reply) override {
    Statement put(connection_,
                  "INSERT OR REPLACE INTO replies VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)");
    put.text(1, address).bytes(2, reply.body).number(3, hash_of(reply.body));
    put.number(4, in_ms(reply.fetched)).text(6, reply.etag).text(7, reply.last_modified);
    if (reply.issued) put.number(5, in_ms(*reply.issued));
    put.step();
  }

  void confirm_reply(const std::string& address, Instant fetched) override {
    Statement put(connection_, "UPDATE replies SET fetched_ms = ?2 WHERE address = ?1");
    put.text(1, address).number(2, in_ms(fetched)).step();
  }

  void forget_replies_before(Instant fetched) override {
    Statement(connection_, "DELETE FROM replies WHERE fetched_ms < ?1")
        .number(1, in_ms(fetched))
        .step();
  }

 private:
  Connection connection_;
};

}  // namespace

std::unique_ptr<Store> open_sqlite_store(const std::string& file) {
  return std::make_unique<SqliteStore>(file);
}

}  // namespace passage_brief
