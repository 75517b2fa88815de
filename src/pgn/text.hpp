// Text of tags and comments as it goes into a Game: UTF-8, escapes resolved, lines joined. Private
// to the reader.
#pragma once

#include <string>
#include <string_view>

namespace kairos::pgn {

// Only printable ASCII, so that nothing need be changed.
bool is_plain(std::string_view text);

// `\"` and `\\` resolved, then UTF-8; any other backslash stays.
void assign_tag_value(std::string& into, std::string_view written);

// A comment without the blanks around it, each line end with its blanks made one space, `}` made
// `)` (a `;` comment may hold one, and nothing can write it), then UTF-8.
std::string clean_comment(std::string_view raw);

// At most `limit` bytes, not ending inside a character of UTF-8.
std::string_view cut_text(std::string_view text, std::size_t limit);

}  // namespace kairos::pgn
