#include "page/calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/isolates.h"
#include "page/sheet_parts.h"
#include "page/window_words.h"

namespace passage_brief {
namespace {

/// TEXT of RFC 5545, 3.3.11.
std::string escaped_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F) {
      out += c;
    }
  }
  return out;
}

/// Lines of at most 75 octets, those after the first begun with a space; no letter is cut (3.1).
std::string folded_line(std::string_view line) {
  constexpr std::size_t kMost = 75;
  std::string out;
  std::size_t room = kMost;
  while (line.size() > room) {
    std::size_t end = room;
    while ((static_cast<unsigned char>(line[end]) & 0xC0U) == 0x80U) --end;
    out += line.substr(0, end);
    out += "\r\n ";
    line.remove_prefix(end);
    room = kMost - 1;
  }
  return out + std::string(line) + "\r\n";
}

std::string utc(Instant at) {
  using namespace std::chrono;
  const auto second = floor<seconds>(at);
  const auto day = floor<days>(second);
  const year_month_day date(day);
  const hh_mm_ss time(second - day);
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

/// FNV-1a, 64 bits (Fowler, Noll, Vo): a name for a text, no proof against forgery.
std::string short_name(std::string_view text, std::uint64_t seed) {
  std::uint64_t hash = seed;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3ULL;
  }
  return fmt::format("{:016x}", hash);
}

std::string uid(std::string_view about) {
  return short_name(about, 0xcbf29ce484222325ULL) + short_name(about, 0x84222325cbf29ce4ULL) +
         "@passage-brief.invalid";
}

}  // namespace

std::string calendar_of(const std::vector<CalendarEntry>& entries, Instant made_at) {
  std::string out;
  const auto line = [&out](std::string_view name, std::string_view value) {
    out += folded_line(fmt::format("{}:{}", name, value));
  };
  line("BEGIN", "VCALENDAR");
  line("VERSION", "2.0");
  line("PRODID", "-//passage-brief//passage-brief//EN");
  for (const CalendarEntry& entry : entries) {
    line("BEGIN", "VEVENT");
    line("UID", uid(entry.about));
    line("DTSTAMP", utc(made_at));
    line("DTSTART", utc(entry.begins));
    if (entry.ends.has_value() && *entry.ends > entry.begins) line("DTEND", utc(*entry.ends));
    line("SUMMARY", escaped_text(with_isolates(entry.summary)));
    if (!entry.description.empty()) {
      line("DESCRIPTION", escaped_text(with_isolates(entry.description)));
    }
    // A moment to act at, not a time when the skipper is not to be had.
    if (!entry.ends.has_value()) line("TRANSP", "TRANSPARENT");
    line("END", "VEVENT");
  }
  line("END", "VCALENDAR");
  return out;
}

namespace {

bool may_go(Verdict verdict) {
  return verdict == Verdict::within_limits || verdict == Verdict::cautions;
}

/// The words of a block of the sheet, for an entry's description.
std::string words_of(const Block& block) {
  std::string text = block.lead + ": " + block.main;
  for (const Reading& reading : block.readings) text += "; " + reading.what + " " + reading.value;
  for (const std::string& more : block.more) text += "; " + more;
  return text + ".";
}

/// What this brief is for: makes its entries' UIDs.
std::string purpose(const Brief& brief) {
  return fmt::format("{}\n{}\n{}\n{}\n{}", brief.vessel.name, brief.route, brief.waterway,
                     to_rfc3339(brief.findings.passage.departs), static_cast<int>(brief.copy));
}

/// `about`: what the windows are for. With the day and its number that day it makes the UID, so
/// that a window whose edge has moved takes the place of the old.
std::vector<CalendarEntry> window_entries(const std::vector<Window>& windows,
                                          const std::string& about, const std::string& title,
                                          const Zone& zone, Units units) {
  std::vector<CalendarEntry> entries;
  std::map<std::chrono::year_month_day, int> so_far;
  for (const Window& window : windows) {
    const Reader reader{units, Clock24(zone, window.opens)};
    std::string text = "Judged on " + in_words(window.judged_on) + ".";
    const std::string before = edge_words(window.opened_by, reader);
    const std::string after = edge_words(window.closed_by, reader);
    if (!before.empty()) text += "\nBefore: " + before;
    if (!after.empty()) text += "\nAfter: " + after;
    text += "\nThe brief of that departure comes before this entry; the look-out decides.";
    const int number = ++so_far[zone.day_of(window.opens)];
    const Span printed = printed_span(window);
    entries.push_back({fmt::format("{}\nwindow {} of {}", about, number, reader.clock.date()),
                       printed.begin, printed.end,
                       fmt::format("May leave {}: {}", window_told(window, reader.clock), title),
                       with_local_times(std::move(text), reader.clock)});
  }
  return entries;
}

}  // namespace

std::string brief_as_calendar(const Brief& brief, PageChoice choice) {
  const Sheet sheet = make_sheet(brief, choice);
  const PassageFinding& passage = brief.findings.passage;
  const Reader reader{choice.units, Clock24(brief.zone, passage.departs)};
  const std::string purpose_text = purpose(brief);
  std::vector<CalendarEntry> entries;
  const auto add = [&](const std::string& name, Instant begins, std::optional<Instant> ends,
                       std::string summary, std::string description) {
    entries.push_back(
        {purpose_text + "\n" + name, begins, ends, std::move(summary), std::move(description)});
  };
  std::string head;
  std::vector<const Block*> figures;
  for (const Block& block : sheet.blocks) {
    if (block.kind == BlockKind::copy_heading) head += block.lead + ". ";
    if (block.kind == BlockKind::verdict) head += block.lead;
    if (block.kind == BlockKind::key_figure) figures.push_back(&block);
  }
  std::string whole = head;
  for (const Block* block : figures) whole += "\n" + words_of(*block);
  for (const SourceUsed& used : brief.sources) {
    if (!used.source.note.empty()) {
      whole += fmt::format("\n{}: {}.", used.source.what, used.source.note);
    }
  }
  whole += "\nThe whole brief comes before this entry; the look-out decides.";
  const bool goes = may_go(brief.judgement.verdict) && !is_void(brief);
  const std::string stop = goes ? "" : "DO NOT LEAVE: ";
  add("departure", passage.departs,
      passage.arrives.has_value() ? std::optional(passage.arrives.value()) : std::nullopt,
      stop + sheet.title, whole);
  const auto add_control = [&](const std::string& name, const std::string& place,
                               const Passing& passing, const Block& figure) {
    if (!passing.at.has_value()) return;  // no time to put it at; the departure's entry has it
    add(name, passing.at.value(), std::nullopt, stop + figure.lead + ": " + place,
        words_of(figure));
  };
  if (const Brief& way = way_of_least_depth(brief); way.least_depth) {
    const Depth& depth = way.findings.depths.at(*way.least_depth);
    add_control("least under the keel", depth.name, depth.passing, *figures.at(1));
  }
  if (const Brief& way = way_of_lowest_bridge(brief); way.lowest_bridge) {
    const BridgeFinding& bridge = way.findings.bridges.at(*way.lowest_bridge);
    add_control("lowest bridge", bridge.name, bridge.passing, *figures.at(2));
  }
  const auto add_asking = [&](const Brief& way, const std::string& which) {
    const std::vector<BridgeFinding>& bridges = way.findings.bridges;
    for (std::size_t i = 0; i < bridges.size(); ++i) {
      const OpeningDue* const due = opening_due(bridges[i]);
      if (due == nullptr || !due->ask_by) continue;
      add(fmt::format("ask {}{}", which, i), *due->ask_by, std::nullopt,
          stop + "Ask for the opening of " + bridges[i].name + (which.empty() ? "" : ", way back"),
          fmt::format("Opens {}: {}.", reader.clock.with_zone(due->at, Rounding::up),
                      asking_words(bridges[i], reader)));
    }
  };
  add_asking(brief, "");
  if (brief.back != nullptr && brief.back->brief) add_asking(*brief.back->brief, "way back ");
  std::ranges::move(
      window_entries(brief.windows, purpose_text, sheet.title, brief.zone, choice.units),
      std::back_inserter(entries));
  // It takes the place of that of an earlier brief for the same passage; so does one that says not
  // to leave at all.
  const Known<Instant> last = last_to_leave(brief);
  if (goes && last.has_value()) {
    add("void after", *last, std::nullopt, "Too late to leave by the brief: " + sheet.title,
        "Not left yet: ask for a new brief. Under way it holds, with the look-out.");
  } else if (!goes) {
    add("void after", passage.departs, std::nullopt, stop + sheet.title,
        "Not left yet: ask for a new brief.");
  }
  // A telephone may show the summary alone.
  if (brief.copy == Copy::learner) {
    for (CalendarEntry& entry : entries) entry.summary.insert(0, "EXERCISE: ");
  }
  return calendar_of(entries, brief.made_at);
}

std::string windows_as_calendar(const WindowList& list, const std::string& title, const Zone& zone,
                                Units units, Instant made_at) {
  const Reader reader{units, Clock24(zone, list.span.begin)};
  std::vector<CalendarEntry> entries =
      window_entries(list.windows, title + (list.sure_95 ? "\nsure 95" : ""), title, zone, units);
  const std::string warnings = warnings_text(list, reader);
  for (CalendarEntry& entry : entries) {
    if (!warnings.empty()) entry.description.append("\n").append(warnings);
    if (list.sure_95) entry.description.append("\n").append(kHeldSure);
  }
  if (list.none) {
    std::string text;
    for (const std::string& sentence : no_window_words(*list.none, reader)) text += sentence + "\n";
    text += warnings;
    entries.push_back({title + "\nno window " + to_rfc3339(list.span.begin), list.span.begin,
                       list.span.end, "No window to leave: " + title,
                       with_local_times(std::move(text), reader.clock)});
  }
  return calendar_of(entries, made_at);
}

}  // namespace passage_brief
