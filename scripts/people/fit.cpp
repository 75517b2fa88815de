// Fits the model of players and says what it is worth on the events held out.
//
//   kairos_people_fit samples.txt [parameters.inc]
//
// Three models are fitted on the same cases: what a move costs in the end alone; with the short
// looks; with the look on the board as well. The last one is written to the file named. Tables
// (Markdown) go to standard output, the steps of the fits to standard error.
#include <cstdio>
#include <fstream>
#include <iostream>

#include "measures.hpp"

using namespace kairos;
using namespace kairos::people_tools;

namespace {

std::vector<Model> fit_all(const Cases& cases) {
  using people::Group;
  const auto is_used = [](const Case& c) { return !c.held_out; };
  std::vector<Model> models;
  const auto add = [&](const char* name, Group last) {
    const auto thinking = [last](const people::Term& term) { return term.group <= last; };
    const auto glancing = [last](const people::Term& term) {
      return term.group <= last && (term.group != Group::in_the_end || last == Group::in_the_end);
    };
    models.push_back(fit(name, cases, is_used, thinking, glancing));
  };
  add("cost in the end", Group::in_the_end);
  add("with short looks", Group::short_looks);
  add("with the board", Group::board);
  return models;
}

void write_parameters(std::ostream& out, const Model& model, const std::string& head) {
  char numbers[128];
  out << head;
  for (std::size_t i = 0; i < people::term_count; ++i) {
    std::snprintf(numbers, sizeof numbers, "%.4f, %.4f, %.4f, %.4f", model.thinking[2 * i],
                  model.thinking[2 * i + 1], model.glancing[2 * i], model.glancing[2 * i + 1]);
    out << "{\"" << people::terms[i].name << "\", " << numbers << "},\n";
  }
  for (const double part : model.thinkers) std::cerr << "thinkers " << part << '\n';
}

std::string head_of(const Cases& cases) {
  std::size_t held_out = 0;
  for (const Case& c : cases.list) held_out += c.held_out;
  return "// Weights of the model of players: {term, weight at rating 1200, weight at rating "
         "2850}.\n"
         "// Written by kairos_people_fit from " +
         std::to_string(cases.list.size() - held_out) + " cases; what they are worth on " +
         std::to_string(held_out) + " cases of events held\n// out: MEASURED.md.\n";
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
  print_find_rates(cases, models.back());
  print_find_rates(cases, models.back(), false);
  print_errors(cases, models.back());
  debug_errors(cases, models.back());
  print_only_moves(cases, models);
  if (count > 2) {
    std::ofstream out(words[2]);
    write_parameters(out, models.back(), head_of(cases));
  }
}
