#include "reading/file_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <expected>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include "reading/problem.h"

namespace passage_brief {
namespace {

std::unexpected<Problems> refuse_file(std::string_view file, std::string words) {
  return std::unexpected(Problems{{std::string(file), "", std::move(words)}});
}

bool is_continuation(unsigned char byte) { return (byte & 0xC0U) == 0x80U; }

/// The length of the UTF-8 sequence that begins here, 0 when none does (Unicode 15, table 3-7).
std::size_t sequence_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[at + i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                             : first >= 0xE0 && first <= 0xEF ? 3
                             : first >= 0xF0 && first <= 0xF4 ? 4
                                                              : 0;
  if (length == 0 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if (!is_continuation(byte(i))) return 0;
  }
  const unsigned char second = byte(1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool surrogate = first == 0xED && second > 0x9F;
  const bool beyond = first == 0xF4 && second > 0x8F;
  return overlong || surrogate || beyond ? 0 : length;
}

}  // namespace

std::expected<std::string, Problems> read_file_text(const std::string& path) {
  std::error_code error;
  const std::filesystem::file_status status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) return refuse_file(path, "there is no such file");
  if (std::filesystem::is_directory(status)) return refuse_file(path, "is a folder, not a file");
  std::ifstream file(path, std::ios::binary);
  if (!file) return refuse_file(path, "cannot be opened for reading");
  std::string text;
  // A pipe has no size to ask for: read in pieces and stop past the limit.
  std::string piece(std::size_t{64} * 1024, '\0');
  while (file && text.size() <= kMostFileBytes) {
    file.read(piece.data(), static_cast<std::streamsize>(piece.size()));
    text.append(piece, 0, static_cast<std::size_t>(file.gcount()));
  }
  if (file.bad()) return refuse_file(path, "could not be read to its end");
  if (text.size() > kMostFileBytes) {
    return refuse_file(path, fmt::format("is larger than {} MB, the most that is read",
                                         kMostFileBytes / 1024 / 1024));
  }
  return text;
}

std::size_t first_byte_not_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t length = sequence_at(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

std::size_t unseen_bytes(std::string_view text) {
  // Bidi_Control of Unicode 15: U+061C, U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069.
  static constexpr std::array<std::string_view, 12> kTurning{
      "\xD8\x9C",     "\xE2\x80\x8E", "\xE2\x80\x8F", "\xE2\x80\xAA",
      "\xE2\x80\xAB", "\xE2\x80\xAC", "\xE2\x80\xAD", "\xE2\x80\xAE",
      "\xE2\x81\xA6", "\xE2\x81\xA7", "\xE2\x81\xA8", "\xE2\x81\xA9"};
  if (text.empty()) return 0;
  const auto first = static_cast<unsigned char>(text.front());
  if (first < 0x20 || first == 0x7F) return 1;
  for (const std::string_view mark : kTurning) {
    if (text.starts_with(mark)) return mark.size();
  }
  return 0;
}

std::string unseen_character(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::size_t bytes = unseen_bytes(text.substr(at));
    if (bytes == 0) continue;
    if (bytes == 1) return "a control character (a new line or a tab?)";
    return "an unseen mark of writing direction, which turns the figures after it round,";
  }
  return {};
}

std::string_view without_byte_order_mark(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  return text;
}

std::string line_of(std::string_view text, std::size_t byte) {
  const std::string_view before = text.substr(0, byte);
  return fmt::format("line {}", std::count(before.begin(), before.end(), '\n') + 1);
}

Problems problems_of_text(std::string_view file, std::string_view text) {
  const std::string name(file);
  if (text.size() > kMostFileBytes) {
    return {
        {name, "",
         fmt::format("is larger than {} MB, the most that is read", kMostFileBytes / 1024 / 1024)}};
  }
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    return {{name, "", "is written in UTF-16; save it as UTF-8"}};
  }
  if (const std::size_t wrong = first_byte_not_utf8(text); wrong != std::string_view::npos) {
    return {{name, line_of(text, wrong),
             fmt::format("byte 0x{:02X} is not UTF-8 text; save the file as UTF-8",
                         static_cast<unsigned>(static_cast<unsigned char>(text[wrong])))}};
  }
  const std::string_view inside = without_byte_order_mark(text);
  if (inside.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return {{name, "", "is empty"}};
  }
  return {};
}

}  // namespace passage_brief
