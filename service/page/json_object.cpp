#include "page/json_object.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstddef>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "units/direction.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

OrderedJson fixed_json(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double rounded = std::round(value * scale) / scale;
  return rounded == 0 ? 0.0 : rounded;
}

OrderedJson metres_json(Length length) { return fixed_json(in_metres(length), 4); }
OrderedJson height_json(TideHeight height) { return metres_json(height.above_datum()); }
OrderedJson miles_json(Length length) { return fixed_json(in_nautical_miles(length), 3); }
OrderedJson knots_json(Speed speed) { return fixed_json(in_knots(speed), 2); }
OrderedJson seconds_json(Interval interval) {
  return static_cast<long long>(std::llround(in_seconds(interval)));
}
namespace {

template <class B>
OrderedJson round_degrees(B bearing) {
  const double deg = bearing.in_degrees();
  return fixed_json(deg >= 359.95 ? 0 : deg, 1);  // 359.97 would round to 360
}

}  // namespace

OrderedJson degrees_json(TrueBearing bearing) { return round_degrees(bearing); }
OrderedJson degrees_json(MagneticBearing bearing) { return round_degrees(bearing); }
OrderedJson degrees_json(CompassBearing bearing) { return round_degrees(bearing); }

OrderedJson angle_json(Angle angle) { return fixed_json(angle.in_degrees(), 1); }

OrderedJson date_json(std::chrono::year_month_day day) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

struct JsonObject::Parts {
  OrderedJson object = OrderedJson::object();
  OrderedJson not_known = OrderedJson::object();
};

JsonObject::JsonObject() : parts_(std::make_unique<Parts>()) {}
JsonObject::~JsonObject() = default;

void JsonObject::put(const std::string& key, OrderedJson value) {
  parts_->object[key] = std::move(value);
}

void JsonObject::put_not_known(const std::string& key, const NotKnown& why) {
  parts_->object[key] = nullptr;
  parts_->not_known[key] = in_words(why);
}

OrderedJson JsonObject::take() {
  if (!parts_->not_known.empty()) parts_->object["not_known"] = std::move(parts_->not_known);
  return std::move(parts_->object);
}

OrderedJson json_list(std::size_t count, const std::function<OrderedJson(std::size_t)>& print) {
  OrderedJson list = OrderedJson::array();
  for (std::size_t i = 0; i < count; ++i) list.push_back(print(i));
  return list;
}

}  // namespace passage_brief
