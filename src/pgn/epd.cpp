// EPD lines. Read from left to right with the column at hand, so that every fault can name it; an
// operation is an opcode and its operands up to a semicolon outside quotes (the last one may lack
// it). Example: `8/8/8/8/8/4k3/8/4K2R w K - bm Rh3+; id "x";`. Covered by tests/pgn/epd_test.cpp.
#include "kairos/pgn/epd.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::pgn {

namespace {

using base::Code;
using base::Fault;

constexpr std::size_t longest_opcode = 15;

// Control characters too: they have no place in a word.
bool is_blank(char c) {
  return static_cast<unsigned char>(c) <= ' ' || c == 0x7F;
}
bool is_opcode(std::string_view word) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto is_part = [&is_letter](char c) {
    return is_letter(c) || (c >= '0' && c <= '9') || c == '_';
  };
  return !word.empty() && word.size() <= longest_opcode && is_letter(word[0]) &&
         std::ranges::all_of(word, is_part);
}
bool is_number(std::string_view word) {
  return !word.empty() && word.find_first_not_of("0123456789") == std::string_view::npos;
}

class LineReader {
 public:
  explicit LineReader(std::string_view line) : line_(line) {}

  base::Result<Epd> read();

 private:
  void pass_blanks() {
    while (at_ < line_.size() && is_blank(line_[at_])) ++at_;
  }
  std::string_view word() {
    const std::size_t begin = at_;
    while (at_ < line_.size() && !is_blank(line_[at_]) && line_[at_] != ';') ++at_;
    return line_.substr(begin, at_ - begin);
  }
  void add_fault(std::size_t at, std::string_view detail) {
    faults_.report({Code::epd_operation, base::to_utf8(detail), {"", 0, at + 1, 0}});
  }

  void read_fields();
  void read_counters();
  void read_operation();
  bool read_operand(EpdOperation& operation);
  bool read_string(EpdOperation& operation);
  void make_position();
  [[nodiscard]] std::string counter(std::string_view opcode, std::string_view absent) const;

  std::string_view line_;
  std::size_t at_ = 0;
  std::string fields_;
  Epd epd_;
  base::FaultList faults_{most_epd_faults};
};

// The four fields of the position; `at_` stands behind them.
void LineReader::read_fields() {
  for (int n = 0; n < 4; ++n) {
    pass_blanks();
    fields_ += word();
    fields_ += ' ';
  }
}

// Two numbers between position and operations are FEN counters.
void LineReader::read_counters() {
  const std::size_t begin = at_;
  pass_blanks();
  const std::string_view halfmoves = word();
  pass_blanks();
  const std::string_view number = word();
  if (!is_number(halfmoves) || !is_number(number)) {
    at_ = begin;
    return;
  }
  epd_.operations.push_back({"hmvc", {std::string(halfmoves)}, false});
  epd_.operations.push_back({"fmvn", {std::string(number)}, false});
  pass_blanks();
  if (at_ < line_.size() && line_[at_] == ';') ++at_;
}

bool LineReader::read_string(EpdOperation& operation) {
  const std::size_t begin = at_++;
  std::string text;
  while (at_ < line_.size() && line_[at_] != '"') {
    const bool escape = line_[at_] == '\\' && at_ + 1 < line_.size() &&
                        (line_[at_ + 1] == '"' || line_[at_ + 1] == '\\');
    if (escape) ++at_;
    text += line_[at_++];
  }
  if (at_ == line_.size()) {
    add_fault(begin, "a quote is not closed");
    return false;
  }
  ++at_;
  operation.is_string = true;
  operation.operands.push_back(base::to_utf8(text));
  return true;
}

// False at the end of the operation.
bool LineReader::read_operand(EpdOperation& operation) {
  pass_blanks();
  if (at_ == line_.size()) return false;
  if (line_[at_] == ';') {
    ++at_;
    return false;
  }
  if (line_[at_] == '"') return read_string(operation);
  operation.operands.push_back(base::to_utf8(word()));
  return true;
}

void LineReader::read_operation() {
  pass_blanks();
  if (at_ == line_.size()) return;
  const std::size_t begin = at_;
  EpdOperation operation;
  operation.opcode = word();
  const bool is_good = is_opcode(operation.opcode);
  if (!is_good) {
    add_fault(begin, operation.opcode.empty() ? "no opcode before ;" : operation.opcode);
  }
  while (read_operand(operation)) {
  }
  if (!is_good) return;
  const auto same = std::ranges::find(epd_.operations, operation.opcode, &EpdOperation::opcode);
  if (same == epd_.operations.end()) {
    epd_.operations.push_back(std::move(operation));
  } else if (operation.opcode == "hmvc" || operation.opcode == "fmvn") {
    *same = std::move(operation);
  } else {
    add_fault(begin, operation.opcode + " stands twice");
  }
}

std::string LineReader::counter(std::string_view opcode, std::string_view absent) const {
  const EpdOperation* const given = epd_.find(opcode);
  return given != nullptr && given->operands.size() == 1 ? given->operands[0] : std::string(absent);
}

void LineReader::make_position() {
  auto position = rules::parse_fen(fields_ + counter("hmvc", "0") + ' ' + counter("fmvn", "1"));
  if (position) {
    epd_.position = *position;
    return;
  }
  for (Fault fault : position.faults()) {
    fault.detail = base::to_utf8(fault.detail);
    fault.place.column = 1;
    faults_.report(std::move(fault));
  }
}

base::Result<Epd> LineReader::read() {
  read_fields();
  read_counters();
  while (at_ < line_.size()) read_operation();
  make_position();
  if (!faults_.faults.empty()) return std::move(faults_).all();
  return std::move(epd_);
}

// In quotes with the escapes of PGN strings.
std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out += '"';
}

base::Result<rules::Move> operand_move(const rules::Position& position, std::string_view opcode,
                                       const std::string& text) {
  auto move = rules::parse_san(position, text);
  if (move) return *move;
  Fault fault = move.fault();
  fault.detail = std::string(opcode) + ' ' + text;
  return fault;
}

}  // namespace

const EpdOperation* Epd::find(std::string_view opcode) const {
  const auto found = std::ranges::find(operations, opcode, &EpdOperation::opcode);
  return found == operations.end() ? nullptr : &*found;
}

std::string_view Epd::text(std::string_view opcode) const {
  const EpdOperation* const operation = find(opcode);
  return operation == nullptr || operation->operands.empty() ? std::string_view{}
                                                             : operation->operands.front();
}

void Epd::add_moves(std::string opcode, std::span<const rules::Move> moves) {
  EpdOperation operation{std::move(opcode), {}, false};
  for (const rules::Move m : moves) operation.operands.push_back(rules::to_san(position, m));
  std::ranges::sort(operation.operands);
  operations.push_back(std::move(operation));
}

void Epd::add_line(std::string opcode, std::span<const rules::Move> line) {
  operations.push_back({std::move(opcode), rules::to_san(position, line), false});
}

void Epd::add_text(std::string opcode, std::string text) {
  operations.push_back({std::move(opcode), {std::move(text)}, true});
}

void Epd::add_number(std::string opcode, std::int64_t value) {
  operations.push_back({std::move(opcode), {base::number(value)}, false});
}

base::Result<Epd> parse_epd(std::string_view line) {
  if (line.size() > longest_epd_line) {
    return Fault{Code::line_too_long, base::grouped(longest_epd_line) + " bytes at most", {}};
  }
  return LineReader(line).read();
}

std::string to_epd(const Epd& epd) {
  std::vector<const EpdOperation*> sorted;
  for (const EpdOperation& operation : epd.operations) sorted.push_back(&operation);
  std::ranges::stable_sort(sorted, {}, [](const EpdOperation* o) { return o->opcode; });
  std::string text = rules::to_epd_fields(epd.position);
  for (const EpdOperation* const operation : sorted) {
    text += ' ' + operation->opcode;
    for (const std::string& operand : operation->operands) {
      text += ' ';
      text += operation->is_string ? quoted(base::to_utf8(operand)) : operand;
    }
    text += ';';
  }
  return text;
}

base::Result<std::vector<rules::Move>> epd_moves(const Epd& epd, std::string_view opcode) {
  std::vector<rules::Move> moves;
  const EpdOperation* const operation = epd.find(opcode);
  if (operation == nullptr) return moves;
  for (const std::string& operand : operation->operands) {
    auto move = operand_move(epd.position, opcode, operand);
    if (!move) return std::move(move).faults();
    if (*move == rules::null_move) {
      return Fault{Code::illegal_move, std::string(opcode) + ' ' + operand, {}};
    }
    moves.push_back(*move);
  }
  return moves;
}

base::Result<std::vector<rules::Move>> epd_line(const Epd& epd, std::string_view opcode) {
  std::vector<rules::Move> line;
  rules::Position position = epd.position;
  const EpdOperation* const operation = epd.find(opcode);
  if (operation == nullptr) return line;
  for (const std::string& operand : operation->operands) {
    auto move = operand_move(position, opcode, operand);
    if (!move) return std::move(move).faults();
    line.push_back(*move);
    position.play(*move);
  }
  return line;
}

}  // namespace kairos::pgn
