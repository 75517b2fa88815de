// moments.csv: the moments for a spreadsheet (RFC 4180: CRLF, a header line, quotes doubled).
//
// Columns are those of moments.jsonl (json_lines.cpp) up to `file_line`, lines as SAN with
// blanks between, UTF-8, and last `turning_point`, `clock` and `time_spent`. A text from the input
// that a spreadsheet would take for a formula (it begins with = + - @ or a tab) gets an apostrophe
// in front; numbers never do.
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// Section 2, rules 5 to 7: quotes around anything with a quote, a comma or a line end.
std::string cell(std::string_view text) {
  if (text.find_first_of("\",\r\n") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string text_cell(std::string_view text) {
  std::string safe = base::to_utf8(text);
  if (!safe.empty() && std::string_view("=+-@\t").find(safe[0]) != std::string_view::npos) {
    safe.insert(0, 1, '\'');
  }
  return cell(safe);
}

// SAN never holds a comma or a quote, so a line needs no care.
std::string line_cell(const rules::Position& position, std::span<const rules::Move> line) {
  return base::join(rules::to_san(position, line), " ");
}

std::string row(const std::vector<std::string>& cells) {
  return base::join(cells, ",") + "\r\n";
}

constexpr std::string_view header =
    "game,ply,move_number,side,kind,played,best,cost,expectation_best,expectation_played,score,"
    "line,"
    "fen,found,nodes,second_score,played_score,tempting,refutation,punished,gain,motif,sentence,"
    "white,black,event,site,round,date,result,file,file_line,turning_point,clock,time_spent\r\n";

std::string_view truth(bool value) {
  return value ? "true" : "false";
}

// In the order of `header`, up to the sentence; the game's facts follow in `moment_row`.
std::vector<std::string> moment_cells(const study::Study& study, const study::Moment& moment) {
  const rules::Position& position = moment.position;
  const rules::Move questioned = move_in_question(moment);
  const std::string refutation =
      questioned ? line_cell(position.after(questioned), moment.refutation) : "";
  return {base::number(static_cast<std::int64_t>(study.facts.number)),
          base::number(moment.ply),
          base::number(position.fullmove_number()),
          std::string(machine_name(position.side_to_move())),
          std::string(machine_name(moment.kind)),
          plain_san(position, moment.played),
          plain_san(position, moment.best),
          base::fixed(moment.cost(), 4),
          base::fixed(moment.best_expectation(), 4),
          base::fixed(moment.played_expectation(), 4),
          base::number(moment.best_score),
          line_cell(position, moment.line),
          rules::to_fen(position),
          std::string(truth(moment.found)),
          std::to_string(moment.nodes),
          base::number(moment.second_score),
          base::number(moment.played_score),
          plain_san(position, moment.tempting),
          refutation,
          std::string(truth(moment.punished)),
          base::number(moment.gain),
          cell(motif_words(moment)),
          text_cell(sentence_of(study, moment))};
}

// Empty for claims.
std::string number_of(const std::vector<TurningPoint>& points, const study::Moment& moment) {
  for (const TurningPoint& point : points) {
    const bool is_of = point.ply == moment.ply && moment.kind != study::Kind::claim;
    if (is_of) return base::number(point.number);
  }
  return "";
}

std::string moment_row(const study::Study& study, const std::vector<TurningPoint>& points,
                       const study::Moment& moment) {
  std::vector<std::string> cells = moment_cells(study, moment);
  const study::GameFacts& facts = study.facts;
  for (const std::string* text : {&facts.white, &facts.black, &facts.event, &facts.site,
                                  &facts.round, &facts.date, &facts.result, &facts.file}) {
    cells.push_back(text_cell(*text));
  }
  cells.push_back(std::to_string(facts.line));
  cells.push_back(number_of(points, moment));
  const MoveTimes times = times_of(study, moment);
  cells.push_back(times.left >= 0 ? base::number(times.left) : "");
  cells.push_back(times.spent >= 0 ? base::number(times.spent) : "");
  return row(cells);
}

}  // namespace

base::Status write_csv(const Collection& collection, base::ByteSink& sink) {
  if (base::Status status = sink.write(header); !status) return status;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    std::string text;
    const std::vector<TurningPoint> points = turning_points(study);
    for (const study::Moment& moment : study.moments) text += moment_row(study, points, moment);
    if (base::Status status = sink.write(text); !status) return status;
  }
  return base::done();
}

}  // namespace kairos::report
