// What may go wrong on the way, played by a server on the loopback address: every fault, for every
// provider, ends in words of why something is not known, or in a kept copy that is labelled; never
// in a figure out of a bad reply.

#include <gtest/gtest.h>
#include <zlib.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "brief/prepare_brief.h"
#include "facts/facts.h"
#include "fetch/curl_transport.h"
#include "fetch/gather_facts.h"
#include "fetch/sources.h"
#include "given/open_water.h"
#include "given/replies.h"
#include "given/rules.h"
#include "given/stations.h"
#include "given/unruly_server.h"
#include "store/sqlite_store.h"

namespace passage_brief {
namespace {

using given::Talk;

std::string gzipped(std::string_view text) {
  z_stream stream{};
  if (deflateInit2(&stream, 9, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) != Z_OK) return {};
  std::string out(deflateBound(&stream, text.size()) + 64, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  deflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

/// 64 MB of spaces in 64 kB.
const std::string& bomb() {
  static const std::string made = gzipped(std::string(std::size_t{64} * 1024 * 1024, ' '));
  return made;
}

std::string head_of(std::size_t length) {
  return "HTTP/1.1 200 OK\r\nContent-Length: " + std::to_string(length) +
         "\r\nConnection: close\r\n\r\n";
}

struct Fault {
  const char* name;
  bool runs_out_of_time;
  std::function<void(const Talk&, const std::string& good)> play;
};

const std::vector<Fault>& faults() {
  static const std::vector<Fault> all{
      {"ends at once", false, [](const Talk&, const std::string&) {}},
      {"is reset", false, [](const Talk& t, const std::string&) { t.reset(); }},
      {"never answers", true, [](const Talk& t, const std::string&) { t.stall(); }},
      {"stalls in the status line", true,
       [](const Talk& t, const std::string&) { t.say("HTTP/1.1 2"), t.stall(); }},
      {"stalls in the headers", true,
       [](const Talk& t, const std::string&) { t.say("HTTP/1.1 200 OK\r\nContent-"), t.stall(); }},
      {"stalls before the body", true,
       [](const Talk& t, const std::string& g) { t.say(head_of(g.size())), t.stall(); }},
      {"stalls at byte 10", true,
       [](const Talk& t, const std::string& g) {
         t.say(head_of(g.size()) + g.substr(0, 10)), t.stall();
       }},
      {"stalls one byte before its end", true,
       [](const Talk& t, const std::string& g) {
         t.say(head_of(g.size()) + g.substr(0, g.size() - 1)), t.stall();
       }},
      {"drips byte by byte", true,
       [](const Talk& t, const std::string& g) { t.drip(head_of(g.size()) + g); }},
      {"drips headers for ever", true,
       [](const Talk& t, const std::string&) {
         t.say("HTTP/1.1 200 OK\r\n");
         t.drip(std::string(100'000, 'X'));
       }},
      {"is cut in the middle", false,
       [](const Talk& t, const std::string& g) {
         t.say(head_of(g.size()) + g.substr(0, g.size() / 2));
       }},
      {"is reset in the middle", false,
       [](const Talk& t, const std::string& g) {
         t.say(head_of(g.size()) + g.substr(0, g.size() / 2)), t.reset();
       }},
      {"says a length too short", false,
       [](const Talk& t, const std::string& g) { t.say(head_of(g.size() / 2) + g); }},
      {"says a length too long", false,
       [](const Talk& t, const std::string& g) { t.say(head_of(g.size() + 7) + g); }},
      {"says a length that is none", false,
       [](const Talk& t, const std::string& g) {
         t.say("HTTP/1.1 200 OK\r\nContent-Length: -5\r\n\r\n" + g.substr(0, g.size() / 2));
       }},
      {"has no length and is cut", false,
       [](const Talk& t, const std::string& g) {
         t.say("HTTP/1.1 200 OK\r\nConnection: close\r\n\r\n" + g.substr(0, g.size() / 3));
       }},
      {"has a chunk that is no number", false,
       [](const Talk& t, const std::string& g) {
         t.say("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n" + g);
       }},
      {"ends before its last chunk", false,
       [](const Talk& t, const std::string&) {
         t.say("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n5\r\n{\"a\":\r\n");
       }},
      {"unfolds into 64 MB", false,
       [](const Talk& t, const std::string&) {
         t.answer("200 OK", bomb(), "Content-Encoding: gzip\r\n");
       }},
      {"is compressed and cut", false,
       [](const Talk& t, const std::string& g) {
         const std::string packed = gzipped(g);
         t.answer("200 OK", packed.substr(0, packed.size() / 2), "Content-Encoding: gzip\r\n");
       }},
      {"says it is compressed and is not", false,
       [](const Talk& t, const std::string& g) {
         t.answer("200 OK", g, "Content-Encoding: gzip\r\n");
       }},
      {"is compressed in a way nobody asked for", false,
       [](const Talk& t, const std::string& g) {
         t.answer("200 OK", gzipped(g), "Content-Encoding: strange\r\n");
       }},
      {"is 5 MB long", false,
       [](const Talk& t, const std::string&) {
         t.answer("200 OK", std::string(std::size_t{5} * 1024 * 1024, ' '));
       }},
      {"has no end", false,
       [](const Talk& t, const std::string&) {
         t.say("HTTP/1.1 200 OK\r\n\r\n");
         while (t.say(std::string(65'536, ' '))) {
         }
       }},
      {"has 200 kB of headers", false,
       [](const Talk& t, const std::string& g) {
         std::string more;
         for (int i = 0; i < 2000; ++i)
           more += "X-" + std::to_string(i) + ": " + std::string(90, 'x') + "\r\n";
         t.answer("200 OK", g, more);
       }},
      {"is no HTTP", false,
       [](const Talk& t, const std::string&) { t.say("220 mail.example ready\r\n"); }},
      {"is a bare body", false, [](const Talk& t, const std::string& g) { t.say(g); }},
      {"is empty", false, [](const Talk& t, const std::string&) { t.answer("200 OK", ""); }},
      {"is a web page", false,
       [](const Talk& t, const std::string&) {
         t.answer("200 OK", "<!DOCTYPE html><html><body>Log in to the harbor network</body></html>",
                  "Content-Type: application/json\r\n");
       }},
      {"is an error with status 200", false,
       [](const Talk& t, const std::string&) {
         t.answer("200 OK", R"({"error": {"message": "No data was found."}})");
       }},
      {"is another error with status 200", false,
       [](const Talk& t, const std::string&) {
         t.answer("200 OK", R"({"error": true, "reason": "Daily API request limit exceeded."})");
       }},
      {"is a list", false, [](const Talk& t, const std::string&) { t.answer("200 OK", "[1, 2]"); }},
      {"is null", false, [](const Talk& t, const std::string&) { t.answer("200 OK", "null"); }},
      {"is an empty object", false,
       [](const Talk& t, const std::string&) { t.answer("200 OK", "{}"); }},
      {"is nested 100,000 deep", false,
       [](const Talk& t, const std::string&) {
         t.answer("200 OK", "{\"a\":" + std::string(100'000, '['));
       }},
      {"is said twice", false,
       [](const Talk& t, const std::string& g) { t.answer("200 OK", g + g); }},
      {"has every key twice", false,
       [](const Talk& t, const std::string& g) {
         t.answer("200 OK", "{\"x\":1,\"x\":2," + g.substr(g.find('{') + 1));
       }},
      {"has a zero byte", false,
       [](const Talk& t, const std::string& g) {
         t.answer("200 OK", g.substr(0, 20) + std::string(1, '\0') + g.substr(20));
       }},
      {"is not UTF-8", false,
       [](const Talk& t, const std::string& g) {
         t.answer("200 OK", "{\"name\": \"\xE9\", " + g.substr(g.find('{') + 1));
       }},
      {"has numbers that are none", false,
       [](const Talk& t, const std::string& g) {
         t.answer("200 OK", "{\"v\": NaN, " + g.substr(g.find('{') + 1));
       }},
      {"is the first half, whole in itself", false,
       [](const Talk& t, const std::string& g) { t.answer("200 OK", g.substr(0, g.size() / 2)); }},
      {"answers 204", false,
       [](const Talk& t, const std::string&) { t.answer("204 No Content", ""); }},
      {"answers 206", false,
       [](const Talk& t, const std::string& g) { t.answer("206 Partial Content", g); }},
      {"answers 304 without a copy", false,
       [](const Talk& t, const std::string&) { t.answer("304 Not Modified", ""); }},
      {"answers 400", false,
       [](const Talk& t, const std::string&) {
         t.answer("400 Bad Request", R"({"error": {"message": "Wrong station."}})");
       }},
      {"answers 403", false,
       [](const Talk& t, const std::string&) { t.answer("403 Forbidden", "<html>no</html>"); }},
      {"answers 404", false,
       [](const Talk& t, const std::string&) {
         t.answer("404 Not Found", R"({"type": "https://api.weather.gov/problems/NotFound",
                                       "title": "Not Found", "status": 404, "detail": "No."})");
       }},
      {"answers 408 always", false,
       [](const Talk& t, const std::string&) { t.answer("408 Request Timeout", ""); }},
      {"answers 429 and says wait an hour", false,
       [](const Talk& t, const std::string&) {
         t.answer("429 Too Many Requests", "", "Retry-After: 3600\r\n");
       }},
      {"answers 429 and says wait for nonsense", false,
       [](const Talk& t, const std::string&) {
         t.answer("429 Too Many Requests", "", "Retry-After: next tide\r\n");
       }},
      {"answers 500 always", false,
       [](const Talk& t, const std::string& g) { t.answer("500 Internal Server Error", g); }},
      {"answers 503 always", false,
       [](const Talk& t, const std::string&) {
         t.answer("503 Service Unavailable", R"({"title": "Forecast Grid Expired",
           "type": "https://api.weather.gov/problems/ForecastGridExpired", "status": 503,
           "detail": "It has expired."})");
       }},
      {"sends on to itself for ever", false,
       [](const Talk& t, const std::string&) {
         t.answer("302 Found", "", "Location: " + t.path() + "\r\n");
       }},
      {"sends on to a private address", false,
       [](const Talk& t, const std::string&) {
         t.answer("302 Found", "", "Location: http://10.0.0.1/latest\r\n");
       }},
      {"sends on to a number that is an address", false,
       [](const Talk& t, const std::string&) {
         t.answer("302 Found", "", "Location: http://2130706433:1/\r\n");
       }},
      {"sends on to another host", false,
       [](const Talk& t, const std::string&) {
         t.answer("301 Moved Permanently", "", "Location: https://example.org/x\r\n");
       }},
      {"sends on to a file", false,
       [](const Talk& t, const std::string&) {
         t.answer("307 Temporary Redirect", "", "Location: file:///etc/hostname\r\n");
       }},
      {"sends on to nowhere", false,
       [](const Talk& t, const std::string&) { t.answer("302 Found", ""); }},
      {"sends on to what is no address", false,
       [](const Talk& t, const std::string&) {
         t.answer("302 Found", "", "Location: http://[::broken/\r\n");
       }},
  };
  return all;
}

/// One provider by the file of its good reply, and where it is asked.
struct Provider {
  const char* name;
  const char* path;  // begins the paths on which the fault is played
  NotFetched::What what;
};

const std::vector<Provider>& providers() {
  static const std::vector<Provider> all{{"station", "/mdapi/", NotFetched::What::tide},
                                         {"predictions", "/api/prod/", NotFetched::What::tide},
                                         {"currents", "/api/prod/", NotFetched::What::current},
                                         {"points", "/points/", NotFetched::What::wind},
                                         {"grid", "/gridpoints/", NotFetched::What::wind},
                                         {"hourly", "/gridpoints/", NotFetched::What::wind},
                                         {"openmeteo", "/v1/forecast", NotFetched::What::wind},
                                         {"alerts", "/alerts/", NotFetched::What::alerts}};
  return all;
}

Sources sources_of(const Provider& provider, const std::string& base) {
  Sources sources = given::all_sources(base);
  const std::string_view name = provider.name;
  const WindService service = name == "openmeteo" ? WindService::open_meteo
                              : name == "hourly"  ? WindService::nws_hourly
                                                  : WindService::nws;
  if (provider.what != NotFetched::What::tide) sources.tides.clear();
  if (provider.what != NotFetched::What::current) sources.currents.clear();
  if (provider.what != NotFetched::What::alerts) sources.alerts.clear();
  if (provider.what != NotFetched::What::wind) sources.winds.clear();
  for (WindSource& wind : sources.winds) wind.from = {service};
  for (TideSource& tide : sources.tides) {
    if (name == "predictions") tide.from = {TideFigures::predictions};
  }
  sources.network.hosts = {"127.0.0.1"};
  sources.network.private_addresses = true;
  sources.network.plain_http = true;
  sources.network.first_wait = std::chrono::milliseconds(2);
  return sources;
}

std::string good_reply(const std::string& path) {
  given::ScriptedTransport good;
  good.answer_well();
  std::string body = "{}";
  for (const auto& [begin, answer] : good.answers) {
    if (path.starts_with(begin)) body = answer->body;
  }
  return body;
}

Plan plan() { return given::plan_along({given::at(0, 0), given::at(0, 2000)}); }

/// Facts after a gathering, with a floor and a still tide of their own.
Facts facts_with(GatheredFacts gathered) {
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  add_gathered(std::move(gathered), facts);
  return facts;
}

std::string reasons_of(const GatheredFacts& gathered) {
  std::string all;
  for (const NotFetched& missing : gathered.not_fetched) all += missing.reason + "\n";
  return all;
}

bool holds_nothing(const GatheredFacts& gathered) {
  return gathered.tides.empty() && gathered.currents.empty() && gathered.winds.empty() &&
         gathered.alerts.empty();
}

class Faults : public testing::TestWithParam<Provider> {
 protected:
  /// One gathering against a server that plays the fault.
  static GatheredFacts gathered(const Provider& provider, const Fault& fault, Store& store) {
    const given::UnrulyServer server([&](const Talk& talk) {
      const std::string good = good_reply(talk.path());
      if (talk.path().starts_with(provider.path)) return fault.play(talk, good);
      talk.answer("200 OK", good);
    });
    Sources sources = sources_of(provider, server.base());
    sources.within =
        fault.runs_out_of_time ? std::chrono::milliseconds(400) : std::chrono::milliseconds(10'000);
    const auto network = make_curl_transport(sources.network);
    return gather_facts(plan(), sources, knots(8), {given::at("2026-06-14T11:30:00Z"), Zone::utc()},
                        *network, store);
  }
};

TEST_P(Faults, AreAtLeastForty) { EXPECT_GE(faults().size(), 40U); }

TEST_P(Faults, EndInWordsAndInNoFigure) {
  const Provider& provider = GetParam();
  const RuleSet rules = given::shipped_rules("small_craft");
  for (const Fault& fault : faults()) {
    SCOPED_TRACE(fault.name);
    const auto store = open_sqlite_store(":memory:");
    const GatheredFacts found = gathered(provider, fault, *store);
    EXPECT_TRUE(holds_nothing(found)) << reasons_of(found);
    ASSERT_FALSE(found.not_fetched.empty());
    EXPECT_EQ(found.not_fetched.front().what, provider.what);
    EXPECT_FALSE(found.not_fetched.front().reason.empty());
    const Brief brief =
        prepare_brief(plan(), facts_with(found), rules, given::at("2026-06-14T11:30:00Z"));
    EXPECT_NE(brief.judgement.verdict, Verdict::within_limits);
    EXPECT_FALSE(brief.findings.passage.wind);
  }
}

TEST_P(Faults, LeaveAKeptCopyAsItWasAndLabelIt) {
  const Provider& provider = GetParam();
  bool stalled_once = false;
  for (const Fault& fault : faults()) {
    if (std::string_view(fault.name) == "answers 304 without a copy") continue;
    if (fault.runs_out_of_time && std::exchange(stalled_once, true)) continue;
    SCOPED_TRACE(fault.name);
    const auto store = open_sqlite_store(":memory:");
    std::atomic<bool> plays{false};
    const given::UnrulyServer server([&](const Talk& talk) {
      const std::string good = good_reply(talk.path());
      if (!talk.path().starts_with(provider.path) || !plays) return talk.answer("200 OK", good);
      fault.play(talk, good);
    });
    Sources sources = sources_of(provider, server.base());
    for (KeepFor* keep : {&sources.keep.stations, &sources.keep.predictions, &sources.keep.winds,
                          &sources.keep.alerts}) {
      *keep = {std::chrono::minutes(1), std::chrono::hours(24)};
    }
    if (provider.path == std::string_view("/points/")) continue;  // its copy is fresh for a day
    const auto network = make_curl_transport(sources.network);
    const GatheredFacts first =
        gather_facts(plan(), sources, knots(8), {given::at("2026-06-14T10:30:00Z"), Zone::utc()},
                     *network, *store);
    EXPECT_FALSE(holds_nothing(first)) << reasons_of(first);
    plays = true;
    sources.within =
        fault.runs_out_of_time ? std::chrono::milliseconds(400) : std::chrono::milliseconds(10'000);
    const GatheredFacts second =
        gather_facts(plan(), sources, knots(8), {given::at("2026-06-14T11:30:00Z"), Zone::utc()},
                     *network, *store);
    EXPECT_FALSE(holds_nothing(second)) << reasons_of(second);
    std::string notes = reasons_of(second);
    for (const TideStationFile& tide : second.tides) notes += tide.parts.source.note;
    for (const CurrentStation& current : second.currents) notes += current.source().note;
    for (const WindSeries& wind : second.winds) notes += wind.source().note;
    EXPECT_NE(notes.find("could not be fetched at 14 June 2026 11:30 UTC"), std::string::npos)
        << notes;
  }
}

// A gauge and waves only add to what another reply says: that stands, with words of what is
// missing.
TEST(FaultsOfWhatOnlyAdds, LeaveTheRestAsItIsAndSaySo) {
  for (const char* path : {"/api/prod/datagetter?product=water_level", "/v1/marine"}) {
    const bool gauge = std::string_view(path) != "/v1/marine";
    const Provider provider{gauge ? "station" : "openmeteo", path,
                            gauge ? NotFetched::What::tide : NotFetched::What::wind};
    for (const Fault& fault : faults()) {
      SCOPED_TRACE(std::string(path) + " " + fault.name);
      const given::UnrulyServer server([&](const Talk& talk) {
        const std::string good = good_reply(talk.path());
        if (talk.path().starts_with(path)) return fault.play(talk, good);
        talk.answer("200 OK", good);
      });
      Sources sources = sources_of(provider, server.base());
      if (gauge) sources.tides.pop_back();
      for (TideSource& tide : sources.tides) tide.observed = true;
      if (fault.runs_out_of_time) sources.within = std::chrono::milliseconds(1000);
      const auto store = open_sqlite_store(":memory:");
      const auto network = make_curl_transport(sources.network);
      const GatheredFacts found =
          gather_facts(plan(), sources, knots(8), {given::at("2026-06-14T11:30:00Z"), Zone::utc()},
                       *network, *store);
      EXPECT_TRUE(found.alerts.empty());
      ASSERT_EQ(found.tides.size() + found.winds.size(), 1U) << reasons_of(found);
      if (gauge) {
        const std::string& note = found.tides[0].parts.source.note;
        EXPECT_NE(note.find("its gauge could not be read"), std::string::npos) << note;
      } else {
        EXPECT_FALSE(found.winds[0].wave(given::at("2026-06-14T12:00:00Z")));
        EXPECT_NE(found.winds[0].source().note.find("no waves"), std::string::npos)
            << found.winds[0].source().note;
      }
    }
  }
}

// What passes by itself: asked again, and good.
TEST_P(Faults, ThatPassAreAskedAgain) {
  const Provider& provider = GetParam();
  const std::vector<std::function<void(const Talk&)>> passing{
      [](const Talk&) {}, [](const Talk& t) { t.reset(); },
      [](const Talk& t) { t.answer("503 Service Unavailable", ""); },
      [](const Talk& t) { t.answer("429 Too Many Requests", "", "Retry-After: 0\r\n"); },
      [](const Talk& t) { t.answer("302 Found", "", "Location: " + t.path() + "\r\n"); }};
  for (std::size_t i = 0; i < passing.size(); ++i) {
    SCOPED_TRACE(i);
    std::mutex guard;
    std::vector<std::string> seen;
    const given::UnrulyServer server([&](const Talk& talk) {
      {
        const std::lock_guard lock(guard);
        const bool first = std::ranges::find(seen, talk.path()) == seen.end();
        if (first) seen.push_back(talk.path());
        if (first && talk.path().starts_with(provider.path)) return passing[i](talk);
      }
      talk.answer("200 OK", good_reply(talk.path()));
    });
    const Sources sources = sources_of(provider, server.base());
    const auto store = open_sqlite_store(":memory:");
    const auto network = make_curl_transport(sources.network);
    const GatheredFacts found =
        gather_facts(plan(), sources, knots(8), {given::at("2026-06-14T11:30:00Z"), Zone::utc()},
                     *network, *store);
    EXPECT_FALSE(holds_nothing(found)) << reasons_of(found);
    EXPECT_EQ(reasons_of(found), "");
  }
}

INSTANTIATE_TEST_SUITE_P(Of, Faults, testing::ValuesIn(providers()),
                         [](const auto& of) { return std::string(of.param.name); });

}  // namespace
}  // namespace passage_brief
