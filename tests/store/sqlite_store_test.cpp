#include "store/sqlite_store.h"

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

#include "given/stations.h"
#include "store/store.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;
using given::at;

class SqliteStore : public testing::Test {
 protected:
  SqliteStore()
      : folder_(fs::path(testing::TempDir()) /
                ("passage-brief-store-" + std::to_string(getpid()))) {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~SqliteStore() override { fs::remove_all(folder_); }
  [[nodiscard]] std::string file() const { return (folder_ / "s.sqlite").string(); }
  void run(const std::string& sql) const {
    sqlite3* handle = nullptr;
    ASSERT_EQ(sqlite3_open(file().c_str(), &handle), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
    sqlite3_close(handle);
  }
  fs::path folder_;
};

KeptReply kept() {
  return {std::string("bytes \0 with a zero", 19), at("2026-06-14T10:30:00Z"),
          at("2026-06-14T10:12:00Z"), "\"e1\"", "Sun, 14 Jun 2026 10:12:00 GMT"};
}

TEST_F(SqliteStore, GivesBackWhatWasKeptAcrossRuns) {
  open_sqlite_store(file())->keep_reply("https://a/1", kept());
  const auto store = open_sqlite_store(file());
  EXPECT_EQ(store->reply("https://a/1"), kept());
  EXPECT_EQ(store->reply("https://a/2"), std::nullopt);
  KeptReply undated = kept();
  undated.issued = std::nullopt;
  store->keep_reply("https://a/1", undated);
  EXPECT_EQ(store->reply("https://a/1"), undated);
}

TEST_F(SqliteStore, ConfirmsAndForgets) {
  const auto store = open_sqlite_store(":memory:");
  store->keep_reply("a", kept());
  store->confirm_reply("a", at("2026-06-14T11:00:00Z"));
  EXPECT_EQ(store->reply("a")->fetched, at("2026-06-14T11:00:00Z"));
  EXPECT_EQ(store->reply("a")->issued, kept().issued);
  store->forget_replies_before(at("2026-06-14T11:00:00Z"));
  EXPECT_TRUE(store->reply("a"));
  store->forget_replies_before(at("2026-06-14T11:00:01Z"));
  EXPECT_FALSE(store->reply("a"));
}

TEST_F(SqliteStore, DoesNotGiveBackADamagedReply) {
  open_sqlite_store(file())->keep_reply("a", kept());
  run("UPDATE replies SET body = x'00'");
  EXPECT_FALSE(open_sqlite_store(file())->reply("a"));
}

TEST_F(SqliteStore, RefusesAnotherProgramsFile) {
  run("CREATE TABLE theirs (x)");
  EXPECT_THROW(static_cast<void>(open_sqlite_store(file())), StoreFailure);
}

TEST_F(SqliteStore, RefusesALaterEdition) {
  static_cast<void>(open_sqlite_store(file()));
  run("PRAGMA user_version = 99");
  EXPECT_THROW(static_cast<void>(open_sqlite_store(file())), StoreFailure);
}

TEST_F(SqliteStore, RefusesWhatIsNoDataBase) {
  std::ofstream(file()) << "these are no pages of a data base, whatever the ending says";
  EXPECT_THROW(static_cast<void>(open_sqlite_store(file())), StoreFailure);
  EXPECT_THROW(static_cast<void>(open_sqlite_store((folder_ / "no" / "such.sqlite").string())),
               StoreFailure);
}

TEST_F(SqliteStore, FailsInWordsWhereAnotherHoldsTheFile) {
  const auto store = open_sqlite_store(file());
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open(file().c_str(), &other), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
  EXPECT_THROW(store->keep_reply("a", kept()), StoreFailure);
  EXPECT_EQ(store->reply("a"), std::nullopt);  // reading goes on
  sqlite3_exec(other, "ROLLBACK", nullptr, nullptr, nullptr);
  sqlite3_close(other);
  store->keep_reply("a", kept());
  EXPECT_TRUE(store->reply("a"));
}

}  // namespace
}  // namespace passage_brief
