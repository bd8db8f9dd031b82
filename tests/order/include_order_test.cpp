// The order of the folders of service/ and the libraries each may see, read off the #include lines.
//
// A folder may use only what its row lists, so a reader who has understood the rows below a folder
// has met everything it is made of. DEVELOPERS.md shows the same table with its reasons.

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "given/csv_table.h"

namespace passage_brief {
namespace {

using Names = std::set<std::string, std::less<>>;

/// What the files of one folder may include beside the folder itself, fmt and the standard library.
/// An entry of `uses` is a folder or one header; an entry of `libraries` is a library, alone for
/// the whole folder or after the files (a path's beginning) it is confined to: "facts/magnetic/
/// GeographicLib".
struct Allowed {
  Names uses;
  Names libraries;
};

const std::map<std::string, Allowed, std::less<>> kOrder = {
    {"units", {{}, {"units/geodesy.cpp GeographicLib", "units/zone.cpp date"}}},
    {"reading", {{"units"}, {"nlohmann_json", "pugixml"}}},
    {"store", {{"units"}, {"sqlite3", "libpq", "libsodium"}}},
    {"plan", {{"units", "reading"}, {}}},
    {"facts", {{"units", "reading"}, {"facts/magnetic/ GeographicLib"}}},
    {"passage", {{"units", "plan", "facts"}, {"GEOS"}}},
    {"fetch",
     {{"units", "reading", "plan", "facts", "store"},
      {"libcurl", "nlohmann_json", "ecCodes", "fetch/network_address.cpp sockets",
       "fetch/curl_transport.cpp sockets"}}},
    {"rules", {{"units", "reading", "passage/findings.h"}, {}}},
    {"brief", {{"units", "plan", "facts", "passage", "rules"}, {}}},
    // And whatever brief/brief.h itself carries: see headers_below().
    {"page",
     {{"units", "brief"},
      {"mustache", "Pango", "FriBidi", "Cairo", "fontconfig", "qrencode", "nlohmann_json"}}},
    {"mail", {{"units", "store", "brief", "page"}, {"libcurl"}}},
    {"http",
     {{"units", "reading", "store", "plan", "facts", "passage", "fetch", "rules", "brief", "page",
       "mail"},
      {"cpp-httplib", "prometheus-cpp", "nlohmann_json"}}},
    {"cli",
     {{"units", "reading", "store", "plan", "facts", "passage", "fetch", "rules", "brief", "page",
       "mail"},
      {"CLI11"}}},
    {"main.cpp", {{"http", "cli", "mail"}, {}}},
};

/// Libraries by the beginning of the header's path.
const std::map<std::string, std::string, std::less<>> kLibraries = {
    {"CLI/", "CLI11"},
    {"GeographicLib/", "GeographicLib"},
    {"cairo", "Cairo"},
    {"curl/", "libcurl"},
    {"date/", "date"},
    {"eccodes", "ecCodes"},
    {"fmt/", "fmt"},
    {"fontconfig/", "fontconfig"},
    {"fribidi.h", "FriBidi"},
    {"geos_c.h", "GEOS"},
    {"glib", "Pango"},
    {"httplib.h", "cpp-httplib"},
    {"kainjow/", "mustache"},
    {"libpq-fe.h", "libpq"},
    {"mustache.hpp", "mustache"},
    {"netinet/", "sockets"},
    {"nlohmann/", "nlohmann_json"},
    {"pango/", "Pango"},
    {"prometheus/", "prometheus-cpp"},
    {"pugixml.hpp", "pugixml"},
    {"qrencode.h", "qrencode"},
    {"sodium", "libsodium"},
    {"sqlite3.h", "sqlite3"},
    {"sys/socket.h", "sockets"},
};

struct Include {
  std::string header;
  bool in_quotes;
};

std::vector<Include> includes_of(std::string_view text) {
  std::vector<Include> found;
  while (!text.empty()) {
    const auto end = text.find('\n');
    std::string line(text.substr(0, end));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    std::erase_if(line, [](unsigned char c) { return std::isspace(c) != 0; });
    constexpr std::string_view kDirective = "#include";
    if (!line.starts_with(kDirective) || line.size() <= kDirective.size() + 1) continue;
    const char opens = line[kDirective.size()];
    const auto closes = line.find(opens == '<' ? '>' : '"', kDirective.size() + 1);
    found.push_back(
        {line.substr(kDirective.size() + 1, closes - kDirective.size() - 1), opens == '"'});
  }
  return found;
}

/// First folder of a path below service/, or the file's own name where it stands in no folder.
std::string folder_of(std::string_view path) { return std::string(path.substr(0, path.find('/'))); }

bool is_header(std::string_view path) { return path.ends_with(".h"); }

/// Nothing where the include is allowed, else why not.
std::optional<std::string> fault(std::string_view path, const Include& include,
                                 const Names& carried_by_brief) {
  const std::string folder = folder_of(path);
  const auto row = kOrder.find(folder);
  if (row == kOrder.end()) return "the folder " + folder + " has no row in the order";
  if (include.in_quotes) {
    const std::string target = folder_of(include.header);
    if (target == folder || row->second.uses.contains(target) ||
        row->second.uses.contains(include.header)) {
      return std::nullopt;
    }
    if (folder == "page" && carried_by_brief.contains(include.header)) return std::nullopt;
    return folder + " may not use " + include.header;
  }
  if (include.header.find_first_of("./") == std::string::npos) return std::nullopt;  // standard
  const auto library = std::find_if(kLibraries.begin(), kLibraries.end(), [&](const auto& entry) {
    return include.header.starts_with(entry.first);
  });
  if (library == kLibraries.end()) return "<" + include.header + "> is of no library in the order";
  if (library->second == "fmt") return std::nullopt;
  for (const std::string& allowed : row->second.libraries) {
    const auto space = allowed.find(' ');
    const std::string files = space == std::string::npos ? folder : allowed.substr(0, space);
    if (allowed.substr(space == std::string::npos ? 0 : space + 1) != library->second) continue;
    if (!path.starts_with(files)) continue;
    // Whoever includes a header would see the library too; only the forward declarations are cheap.
    if (is_header(path) && include.header != "nlohmann/json_fwd.hpp") {
      return "a header may not show " + library->second;
    }
    return std::nullopt;
  }
  return folder + " may not use " + library->second;
}

std::vector<std::string> faults(std::string_view path, std::string_view text,
                                const Names& carried_by_brief = {}) {
  std::vector<std::string> all;
  for (const Include& include : includes_of(text)) {
    if (const auto words = fault(path, include, carried_by_brief)) {
      all.push_back(std::string(path) + ": " + *words);
    }
  }
  return all;
}

std::filesystem::path service() { return std::filesystem::path(PROJECT_DIR) / "service"; }

/// The header and every header of the project it includes, at any depth.
void headers_below(const std::string& header, Names& found) {
  if (!std::filesystem::exists(service() / header) || !found.insert(header).second) return;
  for (const Include& include : includes_of(given::contents_of(service() / header))) {
    if (include.in_quotes) headers_below(include.header, found);
  }
}

TEST(IncludeOrder, ServiceKeepsIt) {
  Names carried;
  headers_below("brief/brief.h", carried);
  int files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(service())) {
    const std::string path = std::filesystem::relative(entry.path(), service()).generic_string();
    if (!path.ends_with(".h") && !path.ends_with(".cpp")) continue;
    ++files;
    for (const std::string& words : faults(path, given::contents_of(entry.path()), carried)) {
      ADD_FAILURE() << words;
    }
  }
  EXPECT_GT(files, 20);
}

TEST(IncludeOrder, RefusesAnEdgeThatIsNotInTheTable) {
  EXPECT_EQ(faults("units/height.h", "#include \"plan/vessel.h\"\n"),
            std::vector<std::string>{"units/height.h: units may not use plan/vessel.h"});
  EXPECT_EQ(faults("facts/facts.h", "#include \"plan/plan.h\"\n").size(), 1u);
  EXPECT_EQ(faults("cli/commands.cpp", "#include \"http/server.h\"").size(), 1u);
  EXPECT_EQ(faults("http/server.cpp", "#include \"cli/commands.h\"").size(), 1u);
  EXPECT_EQ(faults("main.cpp", "#include \"brief/brief.h\"\n").size(), 1u);
  EXPECT_EQ(faults("elsewhere/thing.h", "#include <string>\n").size(), 1u);
  EXPECT_TRUE(faults("passage/depths.cpp", "#include \"facts/tide/tide.h\"\n").empty());
  // Several on one file, each said; a comment is no include.
  EXPECT_EQ(faults("plan/route.h",
                   "// #include \"page/text.h\"\n#include \"page/text.h\"\n"
                   "  #  include \"passage/depths.h\"\n#include \"units/time.h\"\n")
                .size(),
            2u);
}

TEST(IncludeOrder, RefusesALibraryOutsideItsPlace) {
  EXPECT_TRUE(faults("units/geodesy.cpp", "#include <GeographicLib/Rhumb.hpp>\n").empty());
  EXPECT_EQ(faults("units/zone.cpp", "#include <GeographicLib/Rhumb.hpp>\n").size(), 1u);
  EXPECT_TRUE(faults("facts/magnetic/variation.cpp", "#include <GeographicLib/Math.hpp>").empty());
  EXPECT_EQ(faults("facts/tide/harmonic.cpp", "#include <GeographicLib/Math.hpp>").size(), 1u);
  EXPECT_TRUE(faults("passage/corridor.cpp", "#include <geos_c.h>\n").empty());
  EXPECT_EQ(faults("plan/route.cpp", "#include <geos_c.h>\n").size(), 1u);
  EXPECT_TRUE(faults("page/pdf.cpp", "#include <pango/pangocairo.h>\n").empty());
  EXPECT_EQ(faults("brief/brief.h", "#include <cairo.h>\n").size(), 1u);
  EXPECT_EQ(faults("reading/json_reader.h", "#include <nlohmann/json.hpp>\n").size(), 1u);
  EXPECT_TRUE(faults("reading/json_reader.h", "#include <nlohmann/json_fwd.hpp>\n").empty());
  EXPECT_EQ(faults("plan/plan.h", "#include <boost/any.hpp>\n").size(), 1u);
  EXPECT_TRUE(faults("page/figures.cpp", "#include <fmt/format.h>\n#include <cmath>\n").empty());
}

TEST(IncludeOrder, RulesSeeOnlyTheFindingsOfAPassage) {
  EXPECT_TRUE(faults("rules/judge.cpp", "#include \"passage/findings.h\"\n").empty());
  EXPECT_EQ(faults("rules/judge.cpp", "#include \"passage/depths.h\"\n").size(), 1u);
}

TEST(IncludeOrder, PageSeesWhatTheBriefCarriesAndNoMore) {
  const Names carried = {"brief/brief.h", "passage/findings.h"};
  EXPECT_TRUE(faults("page/sheet.cpp", "#include \"passage/findings.h\"\n", carried).empty());
  EXPECT_EQ(faults("page/sheet.cpp", "#include \"passage/depths.h\"\n", carried).size(), 1u);
}

}  // namespace
}  // namespace passage_brief
