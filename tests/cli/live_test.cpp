// The program as a person runs it against live services: a server on the loopback address replays
// replies in the documented shapes.

#include <gtest/gtest.h>
#include <httplib.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>
#include <vector>

#include "fetch/read_sources.h"
#include "given/files.h"
#include "given/passage_case.h"
#include "given/replies.h"
#include "given/run_program.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

class Live : public testing::Test {
 protected:
  Live()
      : folder_(fs::path(testing::TempDir()) / ("passage-brief-live-" + std::to_string(getpid()))) {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    network_.answer_well();
    const auto replay = [this](const httplib::Request& request, httplib::Response& response) {
      for (const auto& [begin, answer] : network_.answers) {
        if (!request.target.starts_with(begin)) continue;
        response.set_content(answer->body, "application/json");
        return;
      }
      response.status = 404;
    };
    server_.Get(".*", replay);
    const int port = server_.bind_to_any_port("127.0.0.1");
    base_ = "http://127.0.0.1:" + std::to_string(port);
    thread_ = std::thread([this] { server_.listen_after_bind(); });
    while (!server_.is_running()) std::this_thread::yield();
  }
  ~Live() override {
    stop();
    fs::remove_all(folder_);
  }
  void stop() {
    if (!thread_.joinable()) return;
    server_.stop();
    thread_.join();
  }
  [[nodiscard]] std::string sources(const json& change = json::object()) const {
    json file = {
        {"kind", "sources"},
        {"contact", "tests@example.org"},
        {"store", "copies.sqlite"},
        {"services",
         {{"co_ops", base_}, {"nws", base_}, {"open_meteo", base_}, {"open_meteo_marine", base_}}},
        {"network", {{"private_addresses", true}, {"plain_http", true}}},
        {"winds",
         {{{"name", "open water"},
           {"position", {{"latitude", 30}, {"longitude", -45}}},
           {"from", {"nws", "open meteo"}}}}},
        {"alerts", {"ANZ999"}}};
    file.merge_patch(change);
    const fs::path path = folder_ / "sources.json";
    std::ofstream(path) << file.dump(1);
    return path.string();
  }
  static given::PassageCase passage(const std::string& sources) {
    given::PassageCase straight = given::straight_channel_at({30, -45});
    straight.winds.clear();
    straight.departs = "2026-06-14T13:10Z";
    straight.now = "2026-06-14T11:30Z";
    straight.more_arguments = {"--live", sources};
    return straight;
  }
  fs::path folder_;
  given::ScriptedTransport network_;
  httplib::Server server_;
  std::string base_;
  std::thread thread_;
};

TEST_F(Live, BriefFromTheNetworkAndThenFromTheKeptCopies) {
  const std::string file = sources();
  const auto first = passage(file).make();
  ASSERT_EQ(first.program.status, 0) << first.program.err;
  EXPECT_NE(first.text.find("grid INV 12,34"), std::string::npos) << first.text;
  EXPECT_NE(first.cautions().find("Gale Warning issued June 14"), std::string::npos);
  EXPECT_FALSE(first.brief["passage"]["wind_kn"].is_null());
  stop();
  const auto fresh = passage(file).make();
  EXPECT_EQ(fresh.text, first.text);
  given::PassageCase later = passage(file);
  later.departs = "2026-06-14T14:00Z";
  later.now = "2026-06-14T13:00Z";
  const auto old = later.make();
  ASSERT_EQ(old.program.status, 0) << old.program.err;
  EXPECT_NE(old.text.find("ept copy issued at"), std::string::npos) << old.text;
  later.departs = "2026-06-15T14:00Z";
  later.now = "2026-06-15T13:00Z";
  const auto expired = later.make();
  ASSERT_EQ(expired.program.status, 0) << expired.program.err;
  EXPECT_NE(expired.brief.dump().find("could not be fetched"), std::string::npos);
  EXPECT_TRUE(expired.brief["passage"]["wind_kn"].is_null());
}

TEST_F(Live, NothingIsFetchedWithoutLeaveForPrivateAddresses) {
  const auto run = passage(sources({{"network", {{"private_addresses", false}}}})).make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  EXPECT_NE(run.brief.dump().find("private one, which is not allowed"), std::string::npos);
  EXPECT_TRUE(run.brief["passage"]["wind_kn"].is_null());
}

TEST_F(Live, StationFileFromMetadata) {
  const auto run = given::run_program({"station", "--co-ops", "9999001", "--live", sources(),
                                       "--name", "Landing", "--uncertainty", "0.15 m"});
  ASSERT_EQ(run.status, 0) << run.err;
  const fs::path file = folder_ / "landing.tide.json";
  std::ofstream(file) << run.out;
  EXPECT_EQ(given::run_program({"check", file.string()}).out,
            "tide station: Landing, no problems found\n");
  EXPECT_EQ(json::parse(run.out)["uncertainty"], "0.15 m");
  EXPECT_EQ(given::run_program({"station", "--co-ops", "9999009", "--live", sources()}).status, 2);
  EXPECT_EQ(given::run_program({"station", "--co-ops", "../x", "--live", sources()}).status, 2);
  EXPECT_EQ(given::run_program({"station", "--co-ops", "9999001"}).status, 2);
}

TEST_F(Live, SourcesFileIsChecked) {
  const auto problems = [&](const json& change) {
    return given::run_program({"check", sources(change)}).err;
  };
  EXPECT_EQ(problems(json::object()), "");
  EXPECT_NE(problems({{"contact", nullptr}}).find("contact"), std::string::npos);
  EXPECT_NE(problems({{"services", {{"nws", "https://a/b"}}}}).find("/services/nws"),
            std::string::npos);
  EXPECT_NE(problems({{"services", {{"nws", "https://user@a"}}}}).find("/services/nws"),
            std::string::npos);
  EXPECT_NE(problems({{"alerts", {"../"}}}).find("/alerts/0"), std::string::npos);
  EXPECT_NE(problems({{"tides", {{{"name", "x"}, {"station", "1&x=2"}}}}}).find("/tides/0/station"),
            std::string::npos);
  EXPECT_NE(problems({{"keep", {{"winds", {{"fresh_for", "2 h"}, {"usable_for", "1 h"}}}}}})
                .find("is less than fresh_for"),
            std::string::npos);
}

}  // namespace
}  // namespace passage_brief
