#include "ratio.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace passage_brief::bench {
namespace {

constexpr int kRepetitions = 7;

/// Keeps the least time of each measurement; prints nothing itself.
class LeastTimes : public benchmark::BenchmarkReporter {
 public:
  bool ReportContext(const Context&) override { return true; }
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.run_type != Run::RT_Iteration || run.iterations == 0) continue;
      const bool manual = run.benchmark_name().find("manual_time") != std::string::npos;
      const double ns = (manual ? run.real_accumulated_time : run.cpu_accumulated_time) * 1e9 /
                        static_cast<double>(run.iterations);
      const auto [known, is_new] = times_.emplace(run.run_name.function_name, ns);
      if (!is_new) known->second = std::min(known->second, ns);
    }
  }
  [[nodiscard]] const Times& times() const { return times_; }

 private:
  Times times_;
};

/// Processor time of all children that have ended.
double children_s() {
  rusage usage{};
  getrusage(RUSAGE_CHILDREN, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) * 1e-6;
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

std::string in_words(double ns) {
  if (ns < 1e3) return fmt::format("{:.1f} ns", ns);
  if (ns < 1e6) return fmt::format("{:.1f} us", ns / 1e3);
  return fmt::format("{:.2f} ms", ns / 1e6);
}

}  // namespace

void Plan::measure(const Ratio& ratio, Work work) {
  floor(ratio.what, std::move(work));
  ratios_.push_back(ratio);
}

void Plan::floor_of_processes(const std::string& name, Work work) {
  process_work_.emplace_back(name, std::move(work));
}

void Plan::measure_processes(const Ratio& ratio, Work work) {
  floor_of_processes(ratio.what, std::move(work));
  ratios_.push_back(ratio);
}

void Plan::run() const {
  for (const auto& [name, work] : work_) {
    benchmark::RegisterBenchmark(name.c_str(), [&work](benchmark::State& state) {
      for (auto once : state) work();
    })->Repetitions(kRepetitions);
  }
  for (const auto& [name, work] : process_work_) {
    benchmark::RegisterBenchmark(name.c_str(),
                                 [&work](benchmark::State& state) {
                                   for (auto once : state) {
                                     const double before_s = children_s();
                                     work();
                                     state.SetIterationTime(children_s() - before_s);
                                   }
                                 })
        ->Repetitions(kRepetitions)
        ->UseManualTime();
  }
  LeastTimes least;
  benchmark::RunSpecifiedBenchmarks(&least);
  print(least.times());
}

void Plan::print(const Times& times) const {
  fmt::print("{:<36} {:>10}  {:>7}  {:<36} {:>10}\n", "what", "time", "ratio", "to the floor",
             "time");
  for (const Ratio& ratio : ratios_) {
    const auto what = times.find(ratio.what);
    const auto floor = times.find(ratio.floor);
    if (what == times.end() || floor == times.end()) continue;  // left out by --benchmark_filter
    const double r = what->second / floor->second;
    fmt::print("{:<36} {:>10}  {:>7}  {:<36} {:>10}", ratio.what, in_words(what->second),
               r < 100 ? fmt::format("{:.2f}", r) : fmt::format("{:.0f}", r), ratio.floor,
               in_words(floor->second));
    if (ratio.most > 0)
      fmt::print("  goal {:.2f}: {}", ratio.most, r <= ratio.most ? "met" : "over");
    fmt::print("\n");
  }
}

}  // namespace passage_brief::bench
