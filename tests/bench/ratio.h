// What is measured, and against what: every time is printed as a ratio to a floor of the same run,
// so that the figure means the same on a fast machine and a slow one.
//
// Times are of the processor, not of the wall, and the least of several repetitions: what other
// programs do meanwhile counts as little as may be.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace passage_brief::bench {

/// One line of the printed table.
struct Ratio {
  std::string what;
  std::string floor;  // name of another measurement of the run
  double most = 0;    // the goal; 0: none is stated
};

/// Does the work once; called over and over.
using Work = std::function<void()>;

/// The least processor time of one piece of work, in ns, by name.
using Times = std::map<std::string, double>;

/// Everything to be measured and printed, filled by the *_bench.cpp files.
class Plan {
 public:
  /// Something to measure against.
  void floor(const std::string& name, Work work) { work_.emplace_back(name, std::move(work)); }
  void measure(const Ratio& ratio, Work work);
  /// Work in other processes, whose processor time counts.
  void floor_of_processes(const std::string& name, Work work);
  void measure_processes(const Ratio& ratio, Work work);

  /// Runs all with Google Benchmark and prints the ratios.
  void run() const;

 private:
  void print(const Times& times) const;
  std::vector<std::pair<std::string, Work>> work_;
  std::vector<std::pair<std::string, Work>> process_work_;
  std::vector<Ratio> ratios_;
};

void add_tides(Plan& plan);
void add_briefs(Plan& plan);
void add_fetches(Plan& plan);
void add_processes(Plan& plan);

}  // namespace passage_brief::bench
