#include "given/pdf_text.h"

#include <unistd.h>

#include <array>
#include <cctype>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace passage_brief::given {

std::string with_single_blanks(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool blank = std::isspace(static_cast<unsigned char>(c)) != 0;
    if (!blank) {
      out += c;
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

std::vector<std::string> pages_of_pdf(const std::string& bytes) {
  std::string file = std::filesystem::temp_directory_path() / "passage-brief-pdf-XXXXXX";
  const int descriptor = mkstemp(file.data());
  if (descriptor < 0) throw std::runtime_error("no temporary file");
  close(descriptor);
  std::ofstream(file, std::ios::binary) << bytes;
  FILE* pipe = popen(("pdftotext -raw -enc UTF-8 '" + file + "' -").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot start pdftotext");
  std::string text;
  std::array<char, 4096> part{};
  for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;) {
    text.append(part.data(), n);
  }
  const int status = pclose(pipe);
  std::filesystem::remove(file);
  if (status != 0) throw std::runtime_error("pdftotext (package poppler-utils) failed");
  std::vector<std::string> pages;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\f', begin), text.size());
    pages.push_back(with_single_blanks(text.substr(begin, end - begin)));
    begin = end + 1;
  }
  return pages;
}

}  // namespace passage_brief::given
