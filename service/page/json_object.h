// One JSON object of a brief: figures with fixed decimals, and the reasons of those not known.
#pragma once

#include <chrono>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "units/direction.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

using OrderedJson = nlohmann::ordered_json;

/// Rounded to that many decimals; never -0.
[[nodiscard]] OrderedJson fixed(double value, int decimals);

[[nodiscard]] OrderedJson metres_json(Length length);  // 0.1 mm
[[nodiscard]] OrderedJson height_json(TideHeight height);
[[nodiscard]] OrderedJson miles_json(Length length);        // nautical, 0.001
[[nodiscard]] OrderedJson knots_json(Speed speed);          // 0.01
[[nodiscard]] OrderedJson seconds_json(Interval interval);  // whole
[[nodiscard]] OrderedJson angle_json(Angle angle);          // 0.1 degree
[[nodiscard]] OrderedJson date_json(std::chrono::year_month_day day);

template <class B = TrueBearing>
[[nodiscard]] OrderedJson degrees_json(B bearing) {
  const OrderedJson rounded = fixed(bearing.in_degrees(), 1);
  return rounded == 360.0 ? OrderedJson(0.0) : rounded;
}

/// Keys in the order they are put.
class JsonObject {
 public:
  void put(const std::string& key, OrderedJson value) { object_[key] = std::move(value); }

  /// null where it is not known, and the reason under the same key of `not_known`.
  template <class T, class Print>
  void known(const std::string& key, const Known<T>& value, const Print& print) {
    if (value.has_value()) {
      object_[key] = print(value.value());
    } else {
      object_[key] = nullptr;
      not_known_[key] = in_words(value.error());
    }
  }

  /// The object, with `not_known` last where anything was not known.
  [[nodiscard]] OrderedJson take() {
    if (!not_known_.empty()) object_["not_known"] = std::move(not_known_);
    return std::move(object_);
  }

 private:
  OrderedJson object_ = OrderedJson::object();
  OrderedJson not_known_ = OrderedJson::object();
};

}  // namespace passage_brief
