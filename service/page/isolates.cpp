#include "page/isolates.h"

#include <fribidi.h>

#include <cstddef>
#include <string>
#include <string_view>

namespace passage_brief {
namespace {

constexpr std::string_view kFirstStrongIsolate = "\xE2\x81\xA8";  // U+2068
constexpr std::string_view kPopIsolate = "\xE2\x81\xA9";          // U+2069
constexpr std::string_view kNoBreakSpace = "\xC2\xA0";

struct Character {
  FriBidiChar code;
  std::size_t bytes;
};

/// The first of a text that is not empty.
Character first_of(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const std::size_t bytes = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (bytes == 1 || bytes > text.size()) return {lead, 1};
  FriBidiChar code = lead & (0x7FU >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    code = (code << 6U) | (static_cast<unsigned char>(text[i]) & 0x3FU);
  }
  return {code, bytes};
}

bool runs_to_the_left(FriBidiChar code) {
  const FriBidiCharType type = fribidi_get_bidi_type(code);
  return FRIBIDI_IS_RTL(type) && FRIBIDI_IS_STRONG(type);
}

/// What may stand between two letters of one name; a mark upon a letter does, too.
bool joins(FriBidiChar code) {
  return code == ' ' || code == '-' || code == '\'' ||
         fribidi_get_bidi_type(code) == FRIBIDI_TYPE_NSM;
}

/// How long the name is that a text begins with; 0 where it begins with none.
std::size_t name_at(std::string_view text) {
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character next = first_of(text.substr(at));
    const bool letter = runs_to_the_left(next.code);
    if (!letter && (at == 0 || !joins(next.code))) break;
    at += next.bytes;
    const bool on_a_letter = fribidi_get_bidi_type(next.code) == FRIBIDI_TYPE_NSM;
    if (letter || on_a_letter) end = at;
  }
  return end;
}

}  // namespace

std::string with_isolates(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t bytes = name_at(text.substr(at));
    if (bytes == 0) {
      const std::size_t plain = first_of(text.substr(at)).bytes;
      out += text.substr(at, plain);
      at += plain;
      continue;
    }
    out += kFirstStrongIsolate;
    for (const char byte : text.substr(at, bytes)) {
      if (byte == ' ') {
        out += kNoBreakSpace;
      } else {
        out += byte;
      }
    }
    out += kPopIsolate;
    at += bytes;
  }
  return out;
}

}  // namespace passage_brief
