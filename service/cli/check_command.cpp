#include "cli/check_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <expected>
#include <memory>
#include <string>
#include <vector>

#include "cli/facts_files.h"
#include "cli/file_kinds.h"
#include "cli/plan_file.h"
#include "page/page_choice.h"
#include "reading/describe_table.h"
#include "reading/file_text.h"
#include "reading/problem.h"

namespace passage_brief {
namespace {

struct CheckOptions {
  std::vector<std::string> files;
  std::string schema;
  std::string fields;
  std::string plan;
  std::string units = "us";
};

/// "vessel: Grey Heron, no problems found"
std::expected<std::string, Problems> look_through(const std::string& file) {
  if (const auto reply = look_through_reply(file)) {
    if (!*reply) return std::unexpected(reply->error());
    return **reply + ", no problems found";
  }
  const auto text = read_file_text(file);
  if (!text) return std::unexpected(text.error());
  const auto kind = kind_of(file, *text);
  if (!kind) return std::unexpected(kind.error());
  const auto name = (*kind)->read(file, *text);
  if (!name) return std::unexpected(name.error());
  return fmt::format("{}: {}, no problems found", (*kind)->word, name->empty() ? file : *name);
}

int check_files(const std::vector<std::string>& files) {
  int status = 0;
  for (const std::string& file : files) {
    const auto looked = look_through(file);
    if (looked) {
      fmt::print("{}\n", *looked);
      continue;
    }
    for (const Problem& problem : looked.error()) fmt::print(stderr, "{}\n", in_words(problem));
    status = 2;
  }
  return status;
}

int print_of_kind(const std::string& word, std::string (*made)(const FileKind&)) {
  const auto kind = kind_called(word);
  if (!kind) {
    fmt::print(stderr, "{}\n", kind.error());
    return 2;
  }
  fmt::print("{}", made(**kind));
  return 0;
}

int run(const CheckOptions& options) {
  if (!options.schema.empty()) {
    return print_of_kind(options.schema, [](const FileKind& kind) { return kind.schema(); });
  }
  if (!options.fields.empty()) {
    return print_of_kind(options.fields,
                         [](const FileKind& kind) { return field_tables(kind.pages()); });
  }
  if (options.files.empty()) {
    fmt::print(stderr, "check: name one file or more, for example: check examples/*.json\n");
    return 2;
  }
  const int status = check_files(options.files);
  if (options.plan.empty() || status != 0) return status;
  const Problems problems =
      write_plan(options.files, options.plan, options.units == "us" ? Units::us : Units::metric);
  for (const Problem& problem : problems) fmt::print(stderr, "{}\n", in_words(problem));
  return problems.empty() ? 0 : 2;
}

}  // namespace

void add_check_command(CLI::App& program, int& status) {
  const auto options = std::make_shared<CheckOptions>();
  CLI::App* command = program.add_subcommand(
      "check", "Reads files of any kind and says every problem with its place.");
  command->add_option("files", options->files, "Vessel, route, waterway, stations, wind, rules")
      ->type_name("FILE...");
  command->add_option("--schema", options->schema, "Prints the JSON Schema of a kind instead")
      ->type_name("KIND");
  command->add_option("--fields", options->fields, "Prints the field tables of a kind instead")
      ->type_name("KIND");
  command
      ->add_option("--plan", options->plan,
                   "Draws the waterway among the files, with the route and, where vessel and rules "
                   "are there too, the corridor")
      ->type_name("FILE.svg");
  command->add_option("--units", options->units, "Of the depths on the plan")
      ->check(CLI::IsMember({"us", "metric"}));
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace passage_brief
