// Prints what the program's parts cost, each against a floor measured in the same run.
#include <benchmark/benchmark.h>

#include "ratio.h"

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  passage_brief::bench::Plan plan;
  passage_brief::bench::add_tides(plan);
  passage_brief::bench::add_briefs(plan);
  passage_brief::bench::add_fetches(plan);
  passage_brief::bench::add_processes(plan);
  plan.run();
  return 0;
}
