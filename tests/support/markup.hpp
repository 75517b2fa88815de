// The tags of an HTML page, and what of it is seen before a fold is opened.
#pragma once

#include <catch2/catch.hpp>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace kairos::test {

struct Tag {
  std::string name;        // "/p" for an end
  std::string attributes;  // as written
  std::size_t begin = 0, end = 0;
};

// All tags in order; the contents of <style> and <script> are passed over.
inline std::vector<Tag> tags_of(std::string_view html) {
  std::vector<Tag> tags;
  for (std::size_t at = 0; (at = html.find('<', at)) != std::string_view::npos;) {
    const std::size_t end = html.find('>', at);
    REQUIRE(end != std::string_view::npos);
    const std::string_view inside = html.substr(at + 1, end - at - 1);
    const std::size_t name_end = std::min(inside.find_first_of(" /", 1), inside.size());
    tags.push_back({std::string(inside.substr(0, name_end)), std::string(inside.substr(name_end)),
                    at, end + 1});
    at = end + 1;
    for (const std::string own : {"style", "script"}) {
      if (tags.back().name == own) at = html.find("</" + own + ">", at);
    }
  }
  return tags;
}

inline std::vector<std::string> values_of(std::string_view html, std::string_view attribute) {
  std::vector<std::string> values;
  const std::string opening = " " + std::string(attribute) + "=\"";
  for (const Tag& tag : tags_of(html)) {
    const auto at = tag.attributes.find(opening);
    if (at == std::string::npos) continue;
    const auto begin = at + opening.size();
    values.push_back(tag.attributes.substr(begin, tag.attributes.find('"', begin) - begin));
  }
  return values;
}

// Every element that is not one of the `empty` ones is closed, in its turn.
inline void check_closed(std::string_view html, const std::set<std::string>& empty) {
  std::vector<std::string> open;
  for (const Tag& tag : tags_of(html)) {
    if (empty.contains(tag.name)) continue;
    if (tag.name.starts_with("/")) {
      REQUIRE(!open.empty());
      CHECK(open.back() == tag.name.substr(1));
      open.pop_back();
    } else if (!tag.attributes.ends_with("/")) {
      open.push_back(tag.name);
    }
  }
  CHECK(open.empty());
}

// What stands between the first `begin` at or after `at` and the `end` behind it.
inline std::string between(const std::string& html, std::string_view begin, std::string_view end,
                           std::size_t at = 0) {
  const auto from = html.find(begin, at);
  if (from == std::string::npos) return "";
  return html.substr(from + begin.size(),
                     html.find(end, from + begin.size()) - from - begin.size());
}

// What stands outside all <details>: what one sees, and what a screen reader says, before any fold
// is opened. Summaries count as seen.
inline std::string unfolded(std::string_view html) {
  std::string seen;
  int depth = 0;
  bool summary = false;
  std::size_t from = 0;
  for (const Tag& tag : tags_of(html)) {
    if (depth == 0 || (depth == 1 && summary)) seen += html.substr(from, tag.begin - from);
    if (depth == 0) seen += html.substr(tag.begin, tag.end - tag.begin);
    if (tag.name == "details") ++depth;
    if (tag.name == "/details") --depth;
    if (tag.name == "summary") summary = true;
    if (tag.name == "/summary") summary = false;
    from = tag.end;
  }
  return seen;
}

}  // namespace kairos::test
