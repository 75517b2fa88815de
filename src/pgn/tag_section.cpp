#include "tag_section.hpp"

#include <algorithm>
#include <utility>

#include "kairos/base/text.hpp"

#include "text.hpp"

namespace kairos::pgn {

namespace {

constexpr std::size_t longest_name = 255;  // as the standard bounds it (section 7)

// What is kept of a tag is read whole when it is written: with each byte of the value escaped.
static_assert(longest_name + 2 * ReaderLimits{}.tag_bytes + std::string_view("[ \"\"]").size() <
              TokenStream::longest_tag);

}  // namespace

void TagSection::start(std::vector<Tag>& tags, const ReaderLimits& limits) {
  tags_ = &tags;
  size_ = 0;
  limit_ = limits.tags;
  value_limit_ = limits.tag_bytes;
  full_ = false;
  told_ = false;
  interrupted_ = false;
  repeating_ = false;
  if (has_carried_) {
    tags = std::move(repeat_);
    size_ = tags.size();
    carried_place_ = repeat_place_;
  }
  has_carried_ = false;
  repeat_.clear();
  names_ = size_ == 0 ? 0 : ~std::uint64_t{0};
}

std::optional<Spot> TagSection::take_carried_place() {
  return std::exchange(carried_place_, std::nullopt);
}

// Most names are seen to be new by a bit that no tag before has set.
std::vector<Tag>::iterator TagSection::find(std::string_view name) {
  const auto end = tags_->begin() + static_cast<std::ptrdiff_t>(size_);
  const unsigned mixed =
      static_cast<unsigned char>(name[0]) + 5 * static_cast<unsigned>(name.size());
  const bool is_new =
      (std::exchange(names_, names_ | std::uint64_t{1} << mixed % 64) >> mixed % 64 & 1) == 0;
  if (is_new) return end;
  return std::find_if(tags_->begin(), end, [name](const Tag& t) { return t.name == name; });
}

Tag& TagSection::append() {
  if (size_ == tags_->size()) tags_->emplace_back();
  return (*tags_)[size_++];
}

void TagSection::cut(std::string& value) {
  value.resize(cut_text(value, value_limit_).size());
  cut_ = true;
}

TagSection::Answer TagSection::add(const Token& token, const TokenStream& tokens) {
  // Names are compared as they are kept, in UTF-8.
  const std::string converted = is_plain(token.name) ? std::string() : base::to_utf8(token.name);
  std::string_view name = converted.empty() ? token.name : std::string_view(converted);
  cut_ = token.partial || name.size() > longest_name;
  if (cut_) name = cut_text(name, longest_name);
  const auto end = tags_->begin() + static_cast<std::ptrdiff_t>(size_);
  const auto known = find(name);
  if (known == end && !repeating_) {
    if (size_ >= limit_) return std::exchange(full_, true) ? Answer::taken : Answer::too_many;
    Tag& tag = append();
    tag.name.assign(name);
    assign_tag_value(tag.value, token.text);
    if (tag.value.size() > value_limit_) cut(tag.value);
    return Answer::taken;
  }
  Tag tag;
  tag.name.assign(name);
  assign_tag_value(tag.value, token.text);
  if (tag.value.size() > value_limit_) cut(tag.value);
  const bool same = known != end && known->value == tag.value;
  const std::size_t in_section = repeating_ ? repeat_.size() : size_;
  const bool section_again = (tag.name == "Event" && in_section > 1) || tokens.after_empty_line();
  bool twice = std::ranges::find(repeat_, name, &Tag::name) != repeat_.end();
  if (section_again && (!repeating_ || twice)) {
    if (!repeating_ && (!same || interrupted_)) return Answer::next_game;
    if (!repeating_) size_before_repeat_ = size_;
    repeating_ = true;
    repeat_.clear();
    repeat_place_ = tokens.spot();
    twice = false;
  }
  if (!repeating_ || twice) return std::exchange(told_, true) ? Answer::taken : Answer::repeated;
  if (repeat_.size() < limit_) repeat_.push_back(tag);
  if (known != end && !same) {
    size_ = size_before_repeat_;
    repeating_ = false;
    has_carried_ = true;
    return Answer::carried;
  }
  if (known == end && size_ < limit_) append() = std::move(tag);
  return Answer::taken;
}

std::optional<Spot> TagSection::finish() {
  tags_->resize(size_);
  return repeating_ && !told_ ? std::optional<Spot>(repeat_place_) : std::nullopt;
}

}  // namespace kairos::pgn
