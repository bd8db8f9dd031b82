#include "fetch/compare_forecasts.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/source.h"
#include "facts/weather/wind_series.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

template <class T>
std::optional<T> maybe(const Known<T>& known) {
  return known ? std::optional<T>(*known) : std::nullopt;
}

/// The greatest difference so far.
template <class T>
void take(std::optional<T>& greatest, const Known<T>& one, const Known<T>& other) {
  if (!one || !other) return;
  greatest = std::max(greatest.value_or(T::from_si(0)), std::max(*one - *other, *other - *one));
}

template <class T, class Worse>
std::optional<T> worse(const std::optional<T>& a, const std::optional<T>& b, const Worse& pick) {
  if (!a || !b) return a ? a : b;
  return pick(*a, *b);
}

constexpr auto kGreater = [](auto a, auto b) { return std::max(a, b); };
constexpr auto kLesser = [](auto a, auto b) { return std::min(a, b); };

}  // namespace

std::optional<Speed> greatest_difference(const WindSeries& a, const WindSeries& b, Span span) {
  std::optional<Speed> greatest;
  const auto speed = [](const Known<Wind>& wind) {
    return join([](const Wind& w) { return w.speed; }, wind);
  };
  for (const WindHour& hour : a.hours()) {
    if (hour.at < span.begin || hour.at > span.end) continue;
    take(greatest, speed(a.wind(hour.at)), speed(b.wind(hour.at)));
    take(greatest, a.gust(hour.at), b.gust(hour.at));
  }
  return greatest;
}

std::optional<Length> greatest_wave_difference(const WindSeries& a, const WindSeries& b,
                                               Span span) {
  std::optional<Length> greatest;
  for (const WindHour& hour : a.hours()) {
    if (hour.at < span.begin || hour.at > span.end) continue;
    take(greatest, a.wave(hour.at), b.wave(hour.at));
  }
  return greatest;
}

WindSeries with_note(const WindSeries& series, std::string note) {
  Source source = series.source();
  source.note = std::move(note);
  return WindSeries(std::move(source), series.position(), series.hours());
}

WindSeries worse_of(const WindSeries& a, const WindSeries& b) {
  std::vector<WindHour> hours = a.hours();
  for (WindHour& hour : hours) {
    const Known<Wind> other = b.wind(hour.at);
    if (other && (!hour.speed || other->speed > *hour.speed)) {
      hour.speed = other->speed;
      hour.from = other->from;
    }
    hour.gust = worse(hour.gust, maybe(b.gust(hour.at)), kGreater);
    if (!hour.pressure) hour.pressure = b.pressure(hour.at);
    hour.wave = worse(hour.wave, maybe(b.wave(hour.at)), kGreater);
    hour.visibility = worse(hour.visibility, maybe(b.visibility(hour.at)), kLesser);
    hour.thunder = worse(hour.thunder, maybe(b.thunder(hour.at)), kGreater);
  }
  Source source = a.source();
  source.from = "the worse of " + a.source().from + " and " + b.source().from;
  if (b.source().issued && source.issued) {
    source.issued = std::min(*source.issued, *b.source().issued);
  }
  return WindSeries(std::move(source), a.position(), std::move(hours));
}

}  // namespace passage_brief
