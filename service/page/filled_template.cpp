#include "page/filled_template.h"

#include <fmt/format.h>

#include <cctype>
#include <fstream>
#include <iterator>
#include <kainjow/mustache.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "page/svg.h"
#include "units/check.h"

namespace passage_brief {
namespace {

namespace mustache = kainjow::mustache;
using nlohmann::ordered_json;

mustache::data as_mustache(const ordered_json& value) {
  if (value.is_string()) return mustache::data(value.get<std::string>());
  if (value.is_boolean()) {
    return mustache::data(value.get<bool>() ? mustache::data::type::bool_true
                                            : mustache::data::type::bool_false);
  }
  if (value.is_array()) {
    mustache::data list(mustache::data::type::list);
    for (const ordered_json& entry : value) list.push_back(as_mustache(entry));
    return list;
  }
  check(value.is_object(), "a template takes texts, yes and no, lists and objects");
  mustache::data object(mustache::data::type::object);
  for (const auto& [name, entry] : value.items()) object.set(name, as_mustache(entry));
  return object;
}

/// Where mustache would print nothing for a name it does not find, this throws.
class StrictContext : public mustache::context<std::string> {
 public:
  using mustache::context<std::string>::context;
  const mustache::data* get(const std::string& name) const override {
    const mustache::data* const found = mustache::context<std::string>::get(name);
    if (found == nullptr) {
      throw TemplateRefused(fmt::format("the template uses {{{{{}}}}}, which is not here", name));
    }
    return found;
  }
};

std::string without_blanks(std::string text) {
  std::erase_if(text, [](unsigned char c) { return std::isspace(c) != 0; });
  return text;
}

void check_names(const std::string& text, const std::set<std::string>& names) {
  for (std::size_t at = text.find("{{"); at != std::string::npos; at = text.find("{{", at)) {
    const std::size_t begin = at + (text.compare(at, 3, "{{{") == 0 ? 3 : 2);
    const std::size_t end = text.find("}}", begin);
    if (end == std::string::npos) throw TemplateRefused("the template leaves a {{ open");
    std::string name = without_blanks(text.substr(begin, end - begin));
    at = end;
    if (name.starts_with('!')) continue;
    if (name.starts_with('>') || name.starts_with('=')) {
      throw TemplateRefused("the template uses {{" + name + "}}: no partials or delimiters here");
    }
    name.erase(0, name.find_first_not_of("#^/&"));
    if (name != "." && !names.contains(name)) {
      throw TemplateRefused(
          fmt::format("the template uses {{{{{}}}}}, which the page does not have", name));
    }
  }
}

}  // namespace

std::string filled_template(const std::string& text, const nlohmann::ordered_json& values,
                            const std::set<std::string>& names) {
  check_names(text, names);
  mustache::mustache page(text);
  if (!page.is_valid()) throw TemplateRefused("the template is wrong: " + page.error_message());
  page.set_custom_escape([](const std::string& value) { return escaped(value); });
  const mustache::data all = as_mustache(values);
  StrictContext context(&all);
  std::string filled = page.render(context);
  if (!page.is_valid()) throw TemplateRefused("the template is wrong: " + page.error_message());
  return filled;
}

std::string template_text(const std::string& file_name) {
  const std::string path = fmt::format("{}/{}", TEMPLATE_FOLDER, file_name);
  std::ifstream file(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (!file) throw TemplateRefused("cannot read the template " + path);
  return text;
}

}  // namespace passage_brief
