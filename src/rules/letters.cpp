#include "kairos/rules/letters.hpp"

#include <algorithm>

namespace kairos::rules {

namespace {

using enum Letters;

constexpr std::array<Alphabet, 19> table{{
    {english, "english", {"P", "N", "B", "R", "Q", "K"}},
    {czech, "czech", {"P", "J", "S", "V", "D", "K"}},
    {danish, "danish", {"B", "S", "L", "T", "D", "K"}},
    {dutch, "dutch", {"O", "P", "L", "T", "D", "K"}},
    {estonian, "estonian", {"P", "R", "O", "V", "L", "K"}},
    {finnish, "finnish", {"P", "R", "L", "T", "D", "K"}},
    {french, "french", {"P", "C", "F", "T", "D", "R"}},
    {german, "german", {"B", "S", "L", "T", "D", "K"}},
    {hungarian, "hungarian", {"G", "H", "F", "B", "V", "K"}},
    {icelandic, "icelandic", {"P", "R", "B", "H", "D", "K"}},
    {italian, "italian", {"P", "C", "A", "T", "D", "R"}},
    {norwegian, "norwegian", {"B", "S", "L", "T", "D", "K"}},
    {polish, "polish", {"P", "S", "G", "W", "H", "K"}},
    {portuguese, "portuguese", {"P", "C", "B", "T", "D", "R"}},
    {romanian, "romanian", {"P", "C", "N", "T", "D", "R"}},
    {russian,
     "russian",
     {"\320\237", "\320\232", "\320\241", "\320\233", "\320\244", "\320\232\321\200"}},
    {spanish, "spanish", {"P", "C", "A", "T", "D", "R"}},
    {swedish, "swedish", {"B", "S", "L", "T", "D", "K"}},
    {figures,
     "figures",
     {"\342\231\231", "\342\231\230", "\342\231\227", "\342\231\226", "\342\231\225",
      "\342\231\224"}},
}};

bool is_file(char c) {
  return c >= 'a' && c <= 'h';
}

bool is_rank(char c) {
  return c >= '1' && c <= '8';
}

bool is_man(char c) {
  return c != '\0' && std::string_view("NBRQK").find(c) != std::string_view::npos;
}

// What may not touch a move.
bool joins(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '/' ||
         c == '_';
}

char at(std::string_view text, std::size_t i) {
  return i < text.size() ? text[i] : '\0';
}

// "Nf3", "Nbd2", "Q1xd4": how long it is, or 0.
std::size_t man_move(std::string_view text) {
  if (!is_man(at(text, 0))) return 0;
  const auto target = [text](std::size_t i) {
    if (at(text, i) == 'x') ++i;
    return is_file(at(text, i)) && is_rank(at(text, i + 1)) ? i + 2 : 0;
  };
  std::size_t longest = target(1);
  if (is_file(at(text, 1)) || is_rank(at(text, 1))) longest = std::max(longest, target(2));
  if (is_file(at(text, 1)) && is_rank(at(text, 2))) longest = std::max(longest, target(3));
  return longest;
}

// "e8=Q", "exd8=N".
std::size_t promotion(std::string_view text) {
  std::size_t i = is_file(at(text, 0)) && at(text, 1) == 'x' ? 2 : 0;
  if (!is_file(at(text, i)) || (at(text, i + 1) != '1' && at(text, i + 1) != '8')) return 0;
  i += 2;
  return at(text, i) == '=' && is_man(at(text, i + 1)) ? i + 2 : 0;
}

}  // namespace

std::span<const Alphabet> alphabets() {
  return table;
}

const Alphabet& alphabet_of(Letters letters) {
  return table.at(static_cast<std::size_t>(letters));
}

std::optional<Letters> letters_named(std::string_view name) {
  const auto found = std::ranges::find(table, name, &Alphabet::name);
  if (found == table.end()) return std::nullopt;
  return found->letters;
}

std::string in_letters(std::string_view text, Letters letters) {
  if (letters == english) return std::string(text);
  const Alphabet& alphabet = alphabet_of(letters);
  std::string changed;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    const std::size_t length = std::max(man_move(rest), promotion(rest));
    const bool alone = (i == 0 || !joins(text[i - 1])) && !joins(at(rest, length));
    const std::size_t end = i + (length > 0 && alone ? length : 1);
    for (; i < end; ++i) {
      const bool is_letter = length > 0 && alone && is_man(text[i]);
      if (is_letter) {
        changed += alphabet.men[type_of(piece_of_letter(text[i]))];
      } else {
        changed += text[i];
      }
    }
  }
  return changed;
}

std::size_t unfinished_move(std::string_view text) {
  std::size_t length = 0;
  const auto may_belong = [](char c) { return joins(c) || c == '='; };
  while (length < text.size() && may_belong(text[text.size() - 1 - length])) ++length;
  return length;
}

}  // namespace kairos::rules
