#include "kairos/batch/players.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "kairos/base/text.hpp"

namespace kairos::batch {

namespace {

using Words = std::vector<std::string>;

constexpr std::array<std::string_view, 9> titles = {"gm",  "im",  "fm",  "cm", "nm",
                                                    "wgm", "wim", "wfm", "wcm"};

// Letters with accents (Unicode blocks Latin-1 Supplement and Latin Extended-A, U+00C0 to U+017F)
// as the plain letter nearest to them, in order of code point; '-' is no letter.
constexpr std::string_view plain_letters =
    "aaaaaaaceeeeiiiidnooooo-ouuuuyts"   // U+00C0
    "aaaaaaaceeeeiiiidnooooo-ouuuuyty"   // U+00E0
    "aaaaaaccccccccddddeeeeeeeeeegggg"   // U+0100
    "gggghhhhiiiiiiiiiiiijjkkklllllll"   // U+0120
    "lllnnnnnnnnnoooooooorrrrrrssssss"   // U+0140
    "ssttttttuuuuuuuuuuuuwwyyyzzzzzzs";  // U+0160

// The code point of a two-byte UTF-8 sequence as a plain letter, or nothing.
char plain_letter(char first, char second) {
  const unsigned point = (static_cast<unsigned char>(first) & 0x1Fu) << 6 |
                         (static_cast<unsigned char>(second) & 0x3Fu);
  if (point < 0xC0 || point - 0xC0 >= plain_letters.size()) return '-';
  return plain_letters[point - 0xC0];
}

Words words_of(std::string_view name) {
  Words words(1);
  const auto end_word = [&words] {
    if (!words.back().empty()) words.emplace_back();
  };
  const std::string lower = base::lower_case(name);
  for (std::size_t i = 0; i < lower.size(); ++i) {
    const char c = lower[i];
    const auto byte = static_cast<unsigned char>(c);
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      words.back() += c;
    } else if (byte >= 0xC3 && byte <= 0xC5 && i + 1 < lower.size()) {
      const char letter = plain_letter(c, lower[++i]);
      letter == '-' ? end_word() : words.back().push_back(letter);
    } else if (byte >= 0x80) {
      words.back() += c;  // other scripts stay as they are
    } else if (c != '\'') {
      end_word();
    }
  }
  std::erase_if(words, [](const std::string& word) {
    return word.empty() || std::find(titles.begin(), titles.end(), word) != titles.end();
  });
  return words;
}

bool may_be_same(const std::string& a, const std::string& b) {
  if (a == b) return true;
  return (a.size() == 1 && b.starts_with(a)) || (b.size() == 1 && a.starts_with(b));
}

// Whether each word of `few` is another word of `many`, at least one of them in full; without
// `initials` all of them in full.
bool all_in(const Words& few, const Words& many, bool initials = true) {
  std::vector<bool> used(many.size());
  const auto use = [&](const std::string& word, bool in_full) {
    for (std::size_t i = 0; i < many.size(); ++i) {
      if (used[i] || !(in_full ? many[i] == word : may_be_same(many[i], word))) continue;
      used[i] = true;
      return true;
    }
    return false;
  };
  Words rest;
  bool some_in_full = false;
  for (const std::string& word : few) {
    if (!use(word, true))
      rest.push_back(word);
    else
      some_in_full |= word.size() > 1;
  }
  if (!some_in_full || (!rest.empty() && !initials)) return false;
  return std::all_of(rest.begin(), rest.end(),
                     [&use](const std::string& word) { return use(word, false); });
}

bool may_be_one_person(const Words& a, const Words& b) {
  return a.size() <= b.size() ? all_in(a, b) : all_in(b, a);
}

// How many letters the words asked for are away from a name: each from the word of it that is
// nearest; nothing where one is near none.
std::optional<std::size_t> distance(const Words& asked, const Words& name) {
  constexpr std::size_t least = 1, longest = 40;  // letters: beyond, nobody types a name
  std::size_t sum = 0;
  for (const std::string& word : asked) {
    const std::size_t most = std::max(least, word.size() / 3);
    std::size_t nearest = most + 1;
    for (const std::string& other : name) {
      if (word.size() <= longest && other.size() <= longest) {
        nearest = std::min(nearest, base::edit_distance(word, other));
      }
    }
    if (nearest > most) return std::nullopt;
    sum += nearest;
  }
  return sum;
}

// Of sorted names those meant most likely, the nearest first; none where none is near.
std::vector<std::string> nearest_names(const Words& asked, const std::vector<std::string>& names) {
  constexpr std::size_t most = 3;
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const std::string& name : names) {
    if (const auto away = distance(asked, words_of(name))) near.emplace_back(*away, name);
  }
  std::sort(near.begin(), near.end());
  std::vector<std::string> nearest;
  for (const auto& [away, name] : near) {
    if (nearest.size() < most) nearest.push_back(name);
  }
  return nearest;
}

// With the names that may be meant, or else all there are, where they are few.
base::Fault nobody(std::string_view wanted, std::vector<std::string> names) {
  constexpr std::size_t few = 12;
  std::erase_if(names, [](const std::string& name) { return words_of(name).empty(); });
  std::string words = "no player in these games is called \"" + std::string(wanted) + "\"";
  const std::vector<std::string> near = nearest_names(words_of(wanted), names);
  if (!near.empty()) {
    words += "; did you mean " + base::join(near, ", or ") + "?";
  } else if (!names.empty()) {
    const bool all = names.size() <= few;
    words += all ? "; the players are " : "; among the players are ";
    names.resize(std::min(names.size(), few));
    words += base::join(names, "; ");
  }
  return {base::Code::usage, std::move(words), {}};
}

base::Fault several(std::string_view wanted, const std::vector<std::string>& names) {
  constexpr std::size_t most = 12;
  std::vector<std::string> shown(
      names.begin(), names.begin() + static_cast<std::ptrdiff_t>(std::min(most, names.size())));
  return {base::Code::usage,
          "\"" + std::string(wanted) + "\" may be any of: " + base::join(shown, "; ") +
              (names.size() > most ? "; ..." : "") + "; write more of the name",
          {}};
}

}  // namespace

std::vector<std::string> names_in(const Input& input) {
  std::vector<std::string> names;
  for (const InputGame& game : input.games) {
    names.push_back(game.white);
    names.push_back(game.black);
  }
  return names;
}

base::Result<std::vector<std::string>> find_player(std::string_view wanted,
                                                   const std::vector<std::string>& names) {
  const Words asked = words_of(wanted);
  std::vector<std::string> distinct = names;
  std::sort(distinct.begin(), distinct.end());
  distinct.erase(std::unique(distinct.begin(), distinct.end()), distinct.end());

  std::vector<std::string> found;
  std::vector<Words> others;
  for (const std::string& name : distinct) {
    Words words = words_of(name);
    all_in(asked, words) ? found.push_back(name) : others.push_back(std::move(words));
  }
  const auto one_of = [&] {
    const bool is_there = std::find(found.begin(), found.end(), wanted) != found.end();
    using Names = std::vector<std::string>;
    return is_there ? base::Result<Names>(Names{std::string(wanted)})
                    : base::Result<Names>(several(wanted, found));
  };
  if (found.size() > most_spellings) return one_of();
  // "Adams, M." may be the Michael asked for, but not when a Mark Adams plays here too.
  std::erase_if(found, [&](const std::string& name) {
    const Words words = words_of(name);
    return !all_in(asked, words, false) &&
           std::any_of(others.begin(), others.end(),
                       [&words](const Words& other) { return all_in(words, other); });
  });
  if (found.empty()) return nobody(wanted, std::move(distinct));
  for (const std::string& a : found) {
    for (const std::string& b : found) {
      if (!may_be_one_person(words_of(a), words_of(b))) return one_of();
    }
  }
  return found;
}

}  // namespace kairos::batch
