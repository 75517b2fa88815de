#include "samples.hpp"

#include <cmath>
#include <istream>
#include <ostream>
#include <sstream>

#include "kairos/rules/fen.hpp"

namespace kairos::people_tools {

namespace {

long ten_thousandths(double expectation) {
  return std::lround(expectation * 10'000);
}

rules::Move move_of(unsigned raw) {
  return rules::Move::from_raw(static_cast<std::uint16_t>(raw));
}

}  // namespace

void write(std::ostream& out, const Sample& s) {
  out << s.file << ' ' << s.round << ' ' << s.rating << '|' << rules::to_fen(s.position) << '|'
      << s.before.last.raw() << ' ' << s.before.last_took << ' ' << s.before.own_last.raw() << '|'
      << s.played.raw() << '|';
  for (const people::Judged& j : s.judged) {
    out << j.move.raw() << ':' << ten_thousandths(j.at_a_glance) << ':' << ten_thousandths(j.soon)
        << ':' << ten_thousandths(j.in_the_end) << ' ';
  }
  out << '\n';
}

std::optional<Sample> read(std::istream& in) {
  std::string head, fen, before, played, judged;
  if (!std::getline(in, head, '|') || !std::getline(in, fen, '|') ||
      !std::getline(in, before, '|') || !std::getline(in, played, '|') ||
      !std::getline(in, judged)) {
    return std::nullopt;
  }
  Sample s;
  std::istringstream(head) >> s.file >> s.round >> s.rating;
  const auto position = rules::parse_fen(fen);
  if (!position) return std::nullopt;
  s.position = *position;
  unsigned last = 0, own_last = 0, raw = 0;
  std::istringstream(before) >> last >> s.before.last_took >> own_last;
  s.before.last = move_of(last);
  s.before.own_last = move_of(own_last);
  std::istringstream(played) >> raw;
  s.played = move_of(raw);
  std::istringstream moves(judged);
  char colon = ':';
  double glance = 0, soon = 0, end = 0;
  while (moves >> raw >> colon >> glance >> colon >> soon >> colon >> end) {
    s.judged.push_back({move_of(raw), glance / 10'000, soon / 10'000, end / 10'000});
  }
  return s;
}

}  // namespace kairos::people_tools
