#include "support/pgn_twin.hpp"

#include <algorithm>
#include <memory>
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/pgn/gzip_source.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/tokens.hpp"

#include "oracles/pgn_naive.hpp"
#include "support/packed.hpp"

namespace kairos::test {

namespace {

using pgn::TokenKind;
using Comments = std::vector<std::string>;

// As in a C++ string; a byte that comes many times is given as its number.
std::string printable(std::string_view text) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string all;
  for (std::size_t i = 0, end = 0; i < text.size(); i = end) {
    const char c = text[i];
    const auto byte = static_cast<unsigned char>(c);
    std::string shown(1, c);
    if (c == '\n')
      shown = "\\n";
    else if (byte < ' ' || byte >= 0x7F || c == '\\')
      shown = {'\\', 'x', digits[byte >> 4], digits[byte & 15]};
    end = std::min(text.find_first_not_of(c, i), text.size());
    if (end - i > 9)
      all += "(" + shown + " times " + std::to_string(end - i) + ")";
    else
      for (std::size_t n = i; n < end; ++n) all += shown;
  }
  if (all.size() > 400) all = all.substr(0, 200) + " ... " + all.substr(all.size() - 190);
  return all;
}

std::string at(std::size_t line, std::size_t column) {
  return std::to_string(line) + ':' + std::to_string(column);
}

std::string words(const oracles::NaiveToken& t) {
  return std::to_string(static_cast<int>(t.kind)) + ' ' + t.name + '[' + printable(t.text) +
         "] value " + std::to_string(t.value) + (t.damaged ? " damaged" : "") +
         (t.cut ? " cut" : "") + " at " + at(t.line, t.column) +
         (t.begins_line ? " begins a line" : "") +
         (t.after_empty_line ? " after an empty line" : "") + " ends at byte " +
         std::to_string(t.end);
}

// The stream's next token in the twin's terms; the pieces of a comment are joined.
oracles::NaiveToken next_token(pgn::TokenStream& stream) {
  oracles::NaiveToken token;
  for (bool first = true;; first = false) {
    const pgn::Token& t = stream.next();
    if (first) {
      token.kind = t.kind;
      token.line = stream.spot().line;
      token.column = stream.spot().column;
      token.begins_line = stream.begins_line();
      token.after_empty_line = stream.after_empty_line();
    }
    token.text += t.text;
    if (t.kind == TokenKind::tag) token.name = t.name;
    token.value = t.value;
    token.damaged = t.damaged;
    token.end = stream.bytes();
    token.cut = t.kind == TokenKind::tag && t.partial;
    if (t.kind != TokenKind::comment || !t.partial) return token;
  }
}

bool same(const oracles::NaiveToken& a, const oracles::NaiveToken& b) {
  if (a.cut && b.cut) return a.name == b.name && a.line == b.line && a.column == b.column;
  return a.kind == b.kind && a.text == b.text && a.name == b.name && a.value == b.value &&
         a.damaged == b.damaged && a.cut == b.cut && a.line == b.line && a.column == b.column &&
         a.begins_line == b.begins_line && a.after_empty_line == b.after_empty_line &&
         a.end == b.end;
}

std::string token_difference(base::ByteSource& source,
                             const std::vector<oracles::NaiveToken>& tokens) {
  pgn::TokenStream stream(source);
  for (const oracles::NaiveToken& expected : tokens) {
    oracles::NaiveToken token = next_token(stream);
    // A blank of more than one byte may come as a filler without text.
    while (token.kind == TokenKind::filler && token.text.empty()) token = next_token(stream);
    if (stream.failure()) return "the stream fails";
    if (!same(token, expected)) return "token " + words(token) + "\n instead of " + words(expected);
  }
  return "";
}

std::string joined(const Comments& comments) {
  std::string all;
  for (const std::string& comment : comments) all += '{' + comment + '}';
  return all;
}

// A node and its children, as text.
std::string words(const oracles::NaiveMove& m) {
  std::string all = printable(m.text) + " at " + at(m.line, m.column) + " behind " +
                    std::to_string(m.parent) + ", before";
  for (const std::size_t child : m.children) all += ' ' + std::to_string(child);
  for (const int nag : m.nags) all += " $" + std::to_string(nag);
  return all + ' ' + printable(joined(m.before)) + ' ' + printable(joined(m.comments));
}

bool same(const oracles::NaiveMove& a, const oracles::NaiveMove& b) {
  return a.text == b.text && a.line == b.line && a.column == b.column && a.parent == b.parent &&
         a.children == b.children && a.nags == b.nags && a.before == b.before &&
         a.comments == b.comments;
}

oracles::NaiveMove move_of(const pgn::Game& game, pgn::NodeId id) {
  const pgn::Node& node = game.nodes[id];
  oracles::NaiveMove move;
  move.text = game.san_text(node);
  move.parent = id == 0 ? 0 : node.parent;
  for (pgn::NodeId n = node.first_child; n != pgn::no_node; n = game.nodes[n].next_sibling)
    move.children.push_back(n);
  move.line = node.line;
  move.column = node.column;
  if (const pgn::Annotation* const annotation = game.annotation_of(id); annotation != nullptr) {
    move.nags.assign(annotation->nags.begin(), annotation->nags.end());
    move.before = annotation->before;
    move.comments = annotation->comments;
  }
  return move;
}

std::string difference(const pgn::Game& game, const oracles::NaiveGame& expected) {
  if (game.place.line != expected.line || game.place.column != expected.column) {
    return "begins at " + at(game.place.line, game.place.column) + " instead of " +
           at(expected.line, expected.column);
  }
  if (game.result != expected.result) {
    return "result " + std::string(to_string(game.result)) + " instead of " +
           std::string(to_string(expected.result));
  }
  std::string tags, expected_tags;
  for (const pgn::Tag& tag : game.tags) tags += '[' + tag.name + " \"" + tag.value + "\"]";
  for (const auto& [name, value] : expected.tags)
    expected_tags += '[' + name + " \"" + value + "\"]";
  if (tags != expected_tags)
    return "tags " + printable(tags) + "\n instead of " + printable(expected_tags);
  for (pgn::NodeId id = 0; id < std::max(game.nodes.size(), expected.moves.size()); ++id) {
    if (id >= game.nodes.size()) return "ends before " + words(expected.moves[id]);
    const oracles::NaiveMove move = move_of(game, id);
    if (id >= expected.moves.size()) return "goes on with " + words(move);
    if (!same(move, expected.moves[id]))
      return "move " + words(move) + "\n instead of " + words(expected.moves[id]);
  }
  return "";
}

std::string words(const std::vector<base::Fault>& faults, std::size_t n) {
  if (n >= faults.size()) return "none";
  const base::Place& place = faults[n].place;
  return std::string(base::words(faults[n].code)) + " at " + at(place.line, place.column) +
         " of game " + std::to_string(place.game);
}

std::string game_difference(base::ByteSource& source, const oracles::NaiveReading& expected,
                            const pgn::ReaderLimits& limits) {
  base::FaultList faults;
  pgn::Reader reader(source, "", faults, limits);
  pgn::Game game;
  std::size_t n = 0;
  for (; reader.next(game); ++n) {
    const std::string name = "game " + std::to_string(n + 1) + ' ';
    if (n == expected.games.size()) return name + "is too much";
    if (const std::string what = difference(game, expected.games[n]); !what.empty())
      return name + what;
  }
  if (reader.failure()) return "the reader fails";
  if (n != expected.games.size()) return "only " + std::to_string(n) + " games";
  for (std::size_t i = 0; i < std::max(faults.faults.size(), expected.faults.size()); ++i) {
    const std::string told = words(faults.faults, i), awaited = words(expected.faults, i);
    if (told != awaited) return "fault: " + told + "\n instead of: " + awaited;
  }
  return "";
}

// A comment with nested braces is read as if they were not, when braces of another before it were
// looked at without finding their end.
bool nested_behind_lone_brace(std::string_view text,
                              const std::vector<oracles::NaiveToken>& tokens) {
  bool lone = false;
  for (const oracles::NaiveToken& token : tokens) {
    if (token.kind != TokenKind::comment || text[token.begin] != '{') continue;
    const auto opened = std::count(token.text.begin(), token.text.end(), '{');
    const auto closed = std::count(token.text.begin(), token.text.end(), '}');
    if (opened > 0 && opened == closed && lone) return true;
    lone = lone || opened != closed || token.damaged;
  }
  return false;
}

}  // namespace

bool meets_open_difference(std::string_view text) {
  return !oracles::naive_games(text).open.empty() ||
         nested_behind_lone_brace(text, oracles::NaiveFile(text).tokens());
}

std::string twin_difference(std::string_view text, bool but_open, const pgn::ReaderLimits& limits) {
  const std::vector<oracles::NaiveToken> tokens = oracles::NaiveFile(text).tokens();
  const oracles::NaiveReading games = oracles::naive_games(text, limits);
  if (but_open && (!games.open.empty() || nested_behind_lone_brace(text, tokens))) return "";
  std::string what;
  for (const std::size_t piece : {text.size(), std::size_t{1}, std::size_t{7}, std::size_t{63},
                                  std::size_t{64}, std::size_t{65}, std::size_t{4096}}) {
    base::MemorySource source(text, piece), again(text, piece);
    what = token_difference(source, tokens);
    if (what.empty()) what = game_difference(again, games, limits);
    if (!what.empty()) return "in pieces of " + std::to_string(piece) + ": " + what;
  }
  const std::string gzip = packed(text);
  auto source = pgn::unpacked(std::make_unique<base::MemorySource>(gzip), "");
  if (!source) return "packed: not opened";
  what = game_difference(**source, games, limits);
  return what.empty() ? what : "packed: " + what;
}

std::string smallest_difference(std::string text) {
  int trials = 3000;
  for (bool smaller = true; smaller;) {
    smaller = false;
    for (std::size_t size = std::max<std::size_t>(text.size() / 2, 1); size >= 1; size /= 2) {
      for (std::size_t from = 0; from + size <= text.size() && trials > 0;) {
        std::string shorter = text;
        shorter.erase(from, size);
        --trials;
        if (twin_difference(shorter).empty()) {
          from += size;
        } else {
          text = std::move(shorter);
          smaller = true;
        }
      }
    }
  }
  return twin_difference(text) + "\n in " + std::to_string(text.size()) +
         " bytes: " + printable(text);
}

}  // namespace kairos::test
