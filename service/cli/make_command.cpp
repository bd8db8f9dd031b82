#include "cli/make_command.h"

#include <CLI/CLI.hpp>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <system_error>
#include <vector>

#include "brief/brief.h"
#include "brief/copies.h"
#include "brief/prepare_brief.h"
#include "cli/input_files.h"
#include "page/calendar.h"
#include "page/html.h"
#include "page/json.h"
#include "page/page_choice.h"
#include "page/pdf.h"
#include "page/text.h"
#include "reading/problem.h"
#include "units/clock.h"

namespace passage_brief {
namespace {

struct MakeArguments {
  InputFiles files;
  std::string units = "us";
  std::string paper = "letter";
  std::string copy = "skipper";
  std::vector<std::string> as = {"text"};
  std::string into;
  int windows = 2;  // today's window, and the next
};

struct PageFile {
  std::string file_name;
  std::string bytes;
};

std::string file_name_of(const std::string& as) {
  if (as == "pdf") return "brief.pdf";
  if (as == "html") return "brief.html";
  if (as == "calendar") return "brief.ics";
  return as == "json" ? "brief.json" : "brief.txt";
}

std::string page_of(const Brief& brief, const std::string& as, PageChoice choice) {
  if (as == "pdf") return brief_as_pdf(brief, choice);
  if (as == "html") return brief_as_html(brief, choice);
  if (as == "calendar") return brief_as_calendar(brief, choice);
  if (as == "json") return brief_as_json(brief, choice.units);
  return brief_as_text(brief, choice);
}

/// Written beside its place and then moved there, so that nobody reads half a page.
void write_page(const std::filesystem::path& folder, const PageFile& page) {
  const std::filesystem::path path = folder / page.file_name;
  std::filesystem::path half = path;
  half += ".part";
  std::ofstream file(half, std::ios::binary | std::ios::trunc);
  file << page.bytes;
  file.close();
  std::error_code moved;
  if (file) std::filesystem::rename(half, path, moved);
  if (file && !moved) return;
  std::error_code gone;
  std::filesystem::remove(half, gone);
  throw std::runtime_error("cannot write " + path.string());
}

/// All that can be made, made before any is written; a sheet of paper may be too small, and then
/// whoever goes has the rest. Of what could not be made no file of an earlier passage is left.
void write_pages(const std::filesystem::path& folder, const std::vector<std::string>& forms,
                 const Brief& brief, PageChoice choice) {
  std::vector<PageFile> pages;
  std::exception_ptr does_not_fit;
  for (const std::string& as : forms) {
    try {
      pages.push_back({file_name_of(as), page_of(brief, as, choice)});
    } catch (const PageDoesNotFit&) {
      does_not_fit = std::current_exception();
      std::filesystem::remove(folder / file_name_of(as));
    } catch (...) {
      for (const std::string& one : forms) std::filesystem::remove(folder / file_name_of(one));
      throw;
    }
  }
  std::filesystem::create_directories(folder);
  for (const PageFile& page : pages) write_page(folder, page);
  if (does_not_fit) std::rethrow_exception(does_not_fit);
}

int refuse(const Problems& problems) {
  for (const Problem& problem : problems) std::cerr << in_words(problem) << '\n';
  return 2;
}

Copy copy_named(const std::string& name) {
  if (name == "learner") return Copy::learner;
  return name == "instructor" ? Copy::instructor : Copy::skipper;
}

int make(const MakeArguments& arguments, const Clock& clock) {
  if (arguments.into.empty() && arguments.as.size() > 1) {
    return refuse({{"--as", "", "several pages need a folder: give --into DIR"}});
  }
  const auto inputs = read_inputs(arguments.files, clock);
  if (!inputs.has_value()) return refuse(inputs.error());
  const Copy copy = copy_named(arguments.copy);
  if (copy == Copy::learner && inputs->rules.left_blank.empty()) {
    return refuse({{"--copy", "",
                    "the rules \"" + inputs->rules.name +
                        "\" name no figures to leave blank (left_blank), so that a learner's copy "
                        "would hold every answer"}});
  }
  const Brief brief =
      copy_for(copy, prepare_brief(inputs->plan, inputs->facts, inputs->rules, inputs->now,
                                   std::chrono::days(arguments.windows)));
  const PageChoice choice{arguments.units == "us" ? Units::us : Units::metric,
                          arguments.paper == "letter" ? Paper::letter : Paper::a4};
  if (arguments.into.empty()) {
    std::cout << page_of(brief, arguments.as.front(), choice);
  } else {
    write_pages(arguments.into, arguments.as, brief, choice);
  }
  return 0;
}

}  // namespace

void add_make_command(CLI::App& program, const Clock& clock, int& status) {
  CLI::App& command = *program.add_subcommand("make", "Make the brief for one departure");
  const auto arguments = std::make_shared<MakeArguments>();
  InputFiles& files = arguments->files;
  add_input_options(command, files);
  command
      .add_option("--depart", files.depart,
                  "time of leaving: wall time in the waterway's zone, or with offset")
      ->required();
  command.add_option("--units", arguments->units, "us or metric")
      ->check(CLI::IsMember({"us", "metric"}));
  command.add_option("--paper", arguments->paper, "letter or a4")
      ->check(CLI::IsMember({"letter", "a4"}));
  command
      .add_option("--as", arguments->as,
                  "pdf, html, text, calendar, json; several with commas and --into")
      ->delimiter(',')
      ->check(CLI::IsMember({"pdf", "html", "text", "calendar", "json"}));
  command.add_option("--into", arguments->into,
                     "folder to write brief.pdf, brief.html, brief.txt, brief.ics, brief.json");
  command
      .add_option("--copy", arguments->copy,
                  "skipper; learner, with the figures blank that the rules name; instructor, "
                  "with the working")
      ->check(CLI::IsMember({"skipper", "learner", "instructor"}));
  command
      .add_option("--windows", arguments->windows,
                  "local days, from that of departure on, to look over for departure windows; "
                  "0: none; left out: 2")
      ->check(CLI::Range(0, 7));
  command.add_option("--now", files.now, "time the brief is made, instead of the clock's");
  command.callback([arguments, &clock, &status] { status = make(*arguments, clock); });
}

}  // namespace passage_brief
