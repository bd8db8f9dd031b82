// One JSON object of a brief: figures with fixed decimals, and the reasons of those not known.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "units/direction.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

using OrderedJson = nlohmann::ordered_json;

/// Rounded to that many decimals; never -0.
[[nodiscard]] OrderedJson fixed_json(double value, int decimals);

[[nodiscard]] OrderedJson metres_json(Length length);  // 0.1 mm
[[nodiscard]] OrderedJson height_json(TideHeight height);
[[nodiscard]] OrderedJson miles_json(Length length);        // nautical, 0.001
[[nodiscard]] OrderedJson knots_json(Speed speed);          // 0.01
[[nodiscard]] OrderedJson seconds_json(Interval interval);  // whole
[[nodiscard]] OrderedJson angle_json(Angle angle);          // 0.1 degree
[[nodiscard]] OrderedJson date_json(std::chrono::year_month_day day);

// To 0.1 degree, [0, 360).
[[nodiscard]] OrderedJson degrees_json(TrueBearing bearing);
[[nodiscard]] OrderedJson degrees_json(MagneticBearing bearing);
[[nodiscard]] OrderedJson degrees_json(CompassBearing bearing);

/// Keys in the order they are put.
class JsonObject {
 public:
  JsonObject();
  JsonObject(const JsonObject&) = delete;
  JsonObject& operator=(const JsonObject&) = delete;
  ~JsonObject();

  void put(const std::string& key, OrderedJson value);

  /// null where it is not known, and the reason under the same key of `not_known`.
  template <class T, class Print>
  void known(const std::string& key, const Known<T>& value, const Print& print) {
    if (value.has_value()) {
      put(key, print(value.value()));
    } else {
      put_not_known(key, value.error());
    }
  }

  /// The object, with `not_known` last where anything was not known.
  [[nodiscard]] OrderedJson take();

 private:
  void put_not_known(const std::string& key, const NotKnown& why);
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

/// print(index) of each, as a list.
[[nodiscard]] OrderedJson json_list(std::size_t count,
                                    const std::function<OrderedJson(std::size_t)>& print);

/// print(item) of each.
template <class Item, class Print>
[[nodiscard]] auto json_list(const std::vector<Item>& items, const Print& print) {
  return json_list(items.size(), [&](std::size_t i) { return print(items[i]); });
}

}  // namespace passage_brief
