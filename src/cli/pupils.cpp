#include "pupils.hpp"

#include <map>

#include "kairos/base/files.hpp"
#include "kairos/base/foreign.hpp"
#include "kairos/base/lines.hpp"
#include "kairos/base/text.hpp"

namespace kairos::cli {

namespace {

constexpr std::size_t longest_folder = 100;  // bytes
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool stays(char c) {
  const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  return letter || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

base::Fault wrong(const base::Place& place, std::string what) {
  return {base::Code::usage, std::move(what), place};
}

base::Result<Pupil> pupil_of(std::string_view line, const base::Place& place) {
  std::vector<std::string> names;
  for (const std::string_view part : base::split(line, ';')) {
    const std::string name = base::to_utf8(base::trim(part));
    if (!name.empty()) names.push_back(name);
  }
  if (names.empty()) return wrong(place, "no name stands in the line");
  Pupil pupil{.name = names.front(), .folder = folder_name(names.front()), .place = place};
  pupil.also.assign(names.begin() + 1, names.end());
  if (pupil.folder.empty()) {
    return wrong(place, "\"" + pupil.name + "\" has no letter that could name a folder");
  }
  return pupil;
}

// Gathers them, and says which have one folder.
class PupilList {
 public:
  base::Status add(Pupil pupil) {
    if (all.size() == most_pupils) {
      return wrong(pupil.place, "more than " + base::grouped(most_pupils) + " players");
    }
    // To some systems capital and small letters are the same.
    const auto [other, is_new] =
        lines_.try_emplace(base::lower_case(pupil.folder), pupil.place.line);
    if (!is_new) {
      return wrong(pupil.place, "\"" + pupil.name + "\" would have the folder " + pupil.folder +
                                    " of line " + base::grouped(other->second) + " as well");
    }
    all.push_back(std::move(pupil));
    return base::done();
  }
  std::vector<Pupil> all;

 private:
  std::map<std::string, std::uint64_t> lines_;  // by folder
};

}  // namespace

std::string folder_name(std::string_view name) {
  std::string folder;
  for (const char c : base::stripped(name)) {
    if (stays(c)) {
      folder += c;
    } else if (!folder.empty() && folder.back() != '-') {
      folder += '-';
    }
  }
  folder = base::cut(folder, longest_folder);
  if (folder.ends_with('-')) folder.pop_back();
  return folder;
}

base::Result<std::vector<Pupil>> read_pupils(const std::string& file) {
  auto source = base::open_source(file);
  if (!source) return std::move(source).faults();
  base::LimitedSource bytes(std::move(*source), most_pupils * longest_pupil,
                            {base::Code::file_too_long, "", {.file = file}});
  base::LineReader lines(bytes, longest_pupil);
  PupilList list;
  while (const auto line = lines.next()) {
    const base::Place place{.file = file, .line = line->number};
    std::string_view text = line->text;
    if (line->number == 1 && text.starts_with(byte_order_mark)) {
      text.remove_prefix(byte_order_mark.size());
    }
    if (line->number == 1 && (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))) {
      return base::Fault{base::Code::encoding_unsupported, "UTF-16", {.file = file}};
    }
    text = base::trim(text);
    if (line->is_cut()) {
      return wrong(place, "a line of more than " + base::counted(longest_pupil, "byte"));
    }
    if (text.empty() || text.starts_with('#')) continue;
    auto pupil = pupil_of(text, place);
    if (!pupil) return std::move(pupil).faults();
    if (auto added = list.add(std::move(*pupil)); !added) return std::move(added).faults();
  }
  if (lines.failure()) return *lines.failure();
  if (!list.all.empty()) return std::move(list.all);
  return base::Fault{base::Code::file_empty, "it names no player", {.file = file}};
}

}  // namespace kairos::cli
