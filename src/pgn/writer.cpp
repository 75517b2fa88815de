// Export format. Movetext is a stream of words; a word goes on the present line when it fits (fewer
// than 80 characters), else on a new one. Words stay together by "glue": "(" sticks to what
// follows, ")" to what precedes, and the words of a comment to its braces, so that reading back
// gives the same text. Covered by tests/pgn/writer_test.cpp.
#include "kairos/pgn/writer.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::pgn {

namespace {

constexpr std::size_t line_limit = 79;
constexpr std::array<std::string_view, 7> roster = {"Event", "Site",  "Date",  "Round",
                                                    "White", "Black", "Result"};

// What the standard puts where nothing is known (section 8.1.1).
std::string_view unknown_value(std::string_view name) {
  return name == "Date" ? "????.??.??" : "?";
}

void append_tag(std::string& text, std::string_view name, std::string_view value) {
  text += '[';
  text += name;
  text += " \"";
  for (const char c : value) {
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  text += "\"]\n";
}

bool is_roster(std::string_view name) {
  return std::ranges::find(roster, name) != roster.end();
}

// As they are written: the seven, then the others by name.
std::vector<Tag> exported_tags(const Game& game) {
  std::vector<Tag> tags;
  for (const std::string_view name : roster) {
    std::string_view value = game.tag(name);
    if (name == "Result") {
      value = to_string(game.result);
    } else if (std::ranges::find(game.tags, name, &Tag::name) == game.tags.end()) {
      value = unknown_value(name);
    }
    tags.push_back({std::string(name), std::string(value)});
  }
  const bool has_start = game.start != rules::Position::start();
  for (const Tag& tag : game.tags) {
    const bool is_start = tag.name == "FEN" || tag.name == "SetUp";
    if (!is_roster(tag.name) && !(is_start && has_start)) tags.push_back(tag);
  }
  if (has_start) {
    tags.push_back({"FEN", rules::to_fen(game.start)});
    tags.push_back({"SetUp", "1"});
  }
  std::ranges::stable_sort(tags.begin() + roster.size(), tags.end(), {}, &Tag::name);
  for (Tag& tag : tags) tag.value = base::to_utf8(tag.value);
  return tags;
}

// Words into lines. The last word is held back until it is known what sticks to it.
class Lines {
 public:
  explicit Lines(std::string& text) : text_(text) {}

  void word(std::string_view w) {
    place_held();
    held_ = prefix_;
    held_ += w;
    prefix_.clear();
  }
  // Sticks to the next word, or to the last one.
  void before_next(char c) { prefix_ += c; }
  void after_last(char c) { held_ += c; }
  void end_line() {
    place_held();
    if (column_ != 0) text_ += '\n';
    column_ = 0;
  }

 private:
  void place_held() {
    if (held_.empty()) return;
    const std::size_t size = base::character_count(held_);
    if (column_ != 0 && column_ + 1 + size > line_limit) {
      text_ += '\n';
      column_ = 0;
    }
    if (column_ != 0) text_ += ' ';
    column_ += size + (column_ != 0);
    text_ += held_;
    held_.clear();
  }

  std::string& text_;
  std::size_t column_ = 0;
  std::string held_;
  std::string prefix_;
};

// Whether a line of a comment may begin with `word`: not when it would read as an escaped line
// (section 6) or as a tag.
bool may_begin_line(std::string_view word) {
  return !word.starts_with('%') && !(word.starts_with('[') && !word.starts_with("[%"));
}

// A comment's words: parts between single spaces. A command `[%...]` is one word, and so is a run
// of several spaces with the words at its sides: a line end there would not read back the same.
std::vector<std::string_view> comment_words(std::string_view text) {
  std::vector<std::string_view> words;
  std::size_t begin = 0;
  bool in_command = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i).starts_with("[%")) in_command = true;
    if (text[i] == ']') in_command = false;
    const bool single =
        text[i] == ' ' && i > 0 && text[i - 1] != ' ' && i + 1 < text.size() && text[i + 1] != ' ';
    if (single && !in_command && may_begin_line(text.substr(i + 1))) {
      words.push_back(text.substr(begin, i - begin));
      begin = i + 1;
    }
  }
  words.push_back(text.substr(begin));
  return words;
}

std::string exported_comment(std::string_view raw) {
  std::string text = base::to_utf8(base::trim(raw));
  std::ranges::replace(text, '}', ')');
  return text;
}

void write_comment(Lines& lines, std::string_view raw) {
  const std::string text = exported_comment(raw);
  if (text.empty()) return;
  lines.before_next('{');
  for (const std::string_view word : comment_words(text)) lines.word(word);
  lines.after_last('}');
}

class Movetext {
 public:
  Movetext(const Game& game, std::string& text) : game_(game), lines_(text) {}

  void write();

 private:
  // What is still to do, last first: a node with the position before it, or a closing bracket.
  struct Task {
    NodeId node;
    rules::Position before;
    bool closes;
    bool is_variation;
  };

  void write_node(const Task& task);
  void write_move(const Node& node, const rules::Position& before);
  void write_nags(const Annotation* annotation);

  const Game& game_;
  Lines lines_;
  bool needs_number_ = true;
  std::vector<Task> tasks_;
};

void Movetext::write_nags(const Annotation* annotation) {
  if (annotation == nullptr) return;
  for (const std::uint8_t nag : annotation->nags) lines_.word("$" + base::number(nag));
}

void Movetext::write_move(const Node& node, const rules::Position& before) {
  const bool is_white = before.side_to_move() == rules::white;
  if (is_white || needs_number_) {
    lines_.word(base::number(before.fullmove_number()) + (is_white ? "." : "..."));
  }
  needs_number_ = false;
  lines_.word(node.move ? rules::to_san(before, node.move) : std::string(game_.san_text(node)));
}

void Movetext::write_node(const Task& task) {
  const Node& node = game_.nodes[task.node];
  const Annotation* const annotation = game_.annotation_of(task.node);
  if (task.is_variation) {
    lines_.before_next('(');
    needs_number_ = true;
  }
  if (annotation != nullptr) {
    for (const std::string& comment : annotation->before) write_comment(lines_, comment);
    if (!annotation->before.empty()) needs_number_ = true;
  }
  write_move(node, task.before);
  write_nags(annotation);
  if (annotation != nullptr) {
    for (const std::string& comment : annotation->comments) write_comment(lines_, comment);
    if (!annotation->comments.empty()) needs_number_ = true;
  }
}

// A game that was not replayed has no moves to play; its move numbers then stand still.
rules::Position after(const rules::Position& before, rules::Move move) {
  return move ? before.after(move) : before;
}

void Movetext::write() {
  const Annotation* const opening = game_.annotation_of(0);
  write_nags(opening);
  if (opening != nullptr) {
    for (const std::string& comment : opening->comments) write_comment(lines_, comment);
  }
  if (game_.nodes[0].first_child != no_node) {
    tasks_.push_back({game_.nodes[0].first_child, game_.start, false, false});
  }
  while (!tasks_.empty()) {
    const Task task = tasks_.back();
    tasks_.pop_back();
    if (task.closes) {
      lines_.after_last(')');
      needs_number_ = true;
      continue;
    }
    const Node& node = game_.nodes[task.node];
    const Task next_variation{node.next_sibling, task.before, false, true};
    const bool more = node.next_sibling != no_node;
    if (task.is_variation) {
      if (more) tasks_.push_back(next_variation);
      tasks_.push_back({no_node, task.before, true, false});
    }
    write_node(task);
    if (node.first_child != no_node) {
      tasks_.push_back({node.first_child, after(task.before, node.move), false, false});
    }
    if (more && !task.is_variation) tasks_.push_back(next_variation);
  }
  lines_.word(to_string(game_.result));
  lines_.end_line();
}

}  // namespace

std::string to_pgn(const Game& game) {
  std::string text;
  for (const Tag& tag : exported_tags(game)) append_tag(text, tag.name, tag.value);
  text += '\n';
  Movetext(game, text).write();
  text += '\n';
  return text;
}

Game exported(Game game) {
  game.tags = exported_tags(game);
  for (Annotation& annotation : game.annotations) {
    for (auto* comments : {&annotation.before, &annotation.comments}) {
      for (std::string& comment : *comments) comment = exported_comment(comment);
      std::erase(*comments, "");
    }
  }
  game.place = {.file = "", .line = 1, .column = 1, .game = 1};
  return game;
}

}  // namespace kairos::pgn
