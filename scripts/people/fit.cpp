// Fits the model of players and says what it is worth on the events held out.
//
//   kairos_people_fit samples.txt [parameters.inc]
//
// Three models are fitted on the same cases: what a move costs in the end alone; with the short
// looks; with the look on the board as well. The last one is written to the file named. Tables
// (Markdown) go to standard output, the steps of the fits to standard error.
#include <array>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <span>

#include "measures.hpp"

using namespace kairos;
using namespace kairos::people_tools;

namespace {

std::vector<Model> fit_all(const Cases& cases) {
  using people::Group;
  const auto is_used = [](const Case& c) { return !c.held_out; };
  std::vector<Model> models;
  const auto add = [&](const char* name, Group last) {
    models.push_back(fit(name, cases, is_used, [last](std::size_t k, const people::Term& term) {
      return term.group <= last && (last == Group::in_the_end || people::goes_by(k, term.group));
    }));
  };
  add("cost in the end", Group::in_the_end);
  add("with short looks", Group::short_looks);
  add("with the board", Group::board);
  return models;
}

std::string numbers(std::span<const double> values) {
  std::string text;
  for (const double value : values) {
    char number[32];
    std::snprintf(number, sizeof number, "%s%.4f", text.empty() ? "" : ", ", value);
    text += number;
  }
  return "{" + text + "}";
}

void write_parameters(std::ostream& out, const Model& model, const std::string& head) {
  out << head << "constexpr Parts parts = {{" << numbers(model.parts[0]);
  for (std::size_t k = 1; k < model.parts.size(); ++k) out << ", " << numbers(model.parts[k]);
  const std::array sharpness = {model.sharpness.at_nothing, model.sharpness.with_greatest};
  out << "}};\nconstexpr Sharpness sharpness = " << numbers(sharpness)
      << ";\nconstexpr Weights weights = {{\n";
  for (std::size_t i = 0; i < people::term_count; ++i) {
    out << "    {\"" << people::terms[i].name << "\", {{";
    for (std::size_t k = 0; k < model.choosers.size(); ++k) {
      out << (k > 0 ? ", " : "") << numbers(std::span(model.choosers[k]).subspan(2 * i, 2));
    }
    out << "}}},\n";
  }
  out << "}};\n";
}

std::string head_of(const Cases& cases, const std::string& quality) {
  std::size_t held_out = 0;
  for (const Case& c : cases.list) held_out += c.held_out;
  return "// The parts of the choosers at the ratings of model.hpp, and the weights of each term "
         "for each\n"
         "// of them at ratings 1200 and 2850. Written by kairos_people_fit from " +
         std::to_string(cases.list.size() - held_out) + " cases. On\n// " +
         std::to_string(held_out) + " cases of events held out (MEASURED.md):\n" + quality;
}

}  // namespace

int main(int count, char** words) {
  std::ifstream in(count > 1 ? words[1] : "");
  if (!in) {
    std::cerr << "usage: kairos_people_fit samples.txt [parameters.inc]\n";
    return 2;
  }
  const Cases cases = read_cases(in);
  const std::vector<Model> models = fit_all(cases);
  print_log_loss(cases, models);
  print_find_rates(cases, models.back(), Places::all);
  print_find_rates(cases, models.back(), Places::only_moves);
  print_errors(cases, models.back());
  print_only_moves(cases, models);
  if (count > 2) {
    std::ofstream out(words[2]);
    write_parameters(out, models.back(), head_of(cases, quality_of(cases, models)));
  }
}
