// A template of templates/ (mustache) filled in with what a page says.
//
// {{name}} is a value, its text escaped for HTML; {{{name}}} one that is HTML already; {{#name}} to
// {{/name}} is repeated for each entry of a list, or stands where the value is true; {{^name}}
// where it is false or an empty list; {{! }} is a remark. Partials and other delimiters are
// refused. A template is a page's own file and may be changed by those who run the program, so what
// is wrong in it is said, never printed over: a name that the page does not offer is an error even
// where that part of the template is not reached this time.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <set>
#include <stdexcept>
#include <string>

namespace passage_brief {

class TemplateRefused : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// `values`: an object of texts, true and false, lists and objects of the same. `names`: every key
/// that may stand in it at any depth. Throws TemplateRefused.
[[nodiscard]] std::string filled_template(const std::string& text,
                                          const nlohmann::ordered_json& values,
                                          const std::set<std::string>& names);

/// Of templates/, whole. Throws TemplateRefused where it cannot be read.
[[nodiscard]] std::string template_text(const std::string& file_name);

}  // namespace passage_brief
