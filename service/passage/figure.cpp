#include "passage/figure.h"

#include <cmath>

#include "units/quantity.h"

namespace passage_brief {

Length could_be_as_little_as(const Figure& figure) {
  double variance_m2 = 0;
  for (const ErrorTerm& error : figure.errors) {
    variance_m2 += in_metres(error.one_sigma) * in_metres(error.one_sigma);
  }
  return figure.value - metres(1.645 * std::sqrt(variance_m2)) - figure.one_way;
}

}  // namespace passage_brief
