#include "tally_session.hpp"

#include <unistd.h>

#include "kairos/audience/again.hpp"
#include "kairos/audience/verdicts.hpp"
#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "interrupt.hpp"
#include "log.hpp"
#include "output.hpp"
#include "score_file.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

constexpr int redraw_every = 250;  // milliseconds
constexpr std::size_t shown_places = 10;

using Fate = audience::Count::Fate;
using Taken = audience::Count::Taken;

// Typed by hand: each line is answered at once, or the table would run into what is typed.
std::string reply_to(const puzzle::Exercise& exercise, const Taken& taken,
                     const TallySettings& settings) {
  const auto in_letters = [&settings](const std::string& words) {
    return rules::in_letters(words, settings.view.letters);
  };
  switch (taken.fate) {
    case Fate::counted:
    case Fate::changed:
      return "  " + taken.name + ": " +
             in_letters(report::plain_san(exercise.puzzle.position, taken.move)) +
             (exercise.is_key(taken.move) && !settings.hide ? ", the key" : "");
    case Fate::again:
      return "  " + taken.name + " has answered before";
    case Fate::refused:
      return "  " + taken.name + ": " + in_letters(taken.why);
    case Fate::unmeant:
      return "  " + taken.name + ": a move, but not as an answer";
    case Fate::talk:
      return "  " + taken.name + ": no move in these words";
    case Fate::unreadable:
      return "  not read: a line is \"name: words\"";
    case Fate::too_many:
      return "  more people than are kept";
    case Fate::late:
      return "  " + taken.name + ": too late, the answer is shown";
  }
  return "";
}

}  // namespace

// One question: the count and the verdicts on what is counted.
struct TallySession::Asked {
  Asked(const puzzle::Exercise& question, std::size_t place, const TallySettings& settings)
      : exercise(question),
        number(place),
        count(question, settings.latest ? audience::Keep::latest : audience::Keep::first,
              settings.view.letters),
        verdicts(question, settings.nodes, settings.threads) {
    if (verdicts.lacks_threads()) tell_fewer_threads();
  }

  Taken take(std::string_view line) {
    Taken taken = count.take(line);
    if (taken.is_new && !exercise.is_key(taken.move)) verdicts.hand_in(taken.move);
    return taken;
  }
  audience::Tally tally(bool with_verdicts) {
    audience::Tally tally = count.tally();
    if (with_verdicts) verdicts.complete(tally);
    return tally;
  }

  const puzzle::Exercise& exercise;
  const std::size_t number;  // among the questions of the evening, from 1
  audience::Count count;
  audience::Verdicts verdicts;
  bool is_shown = false;    // the answer
  bool is_settled = false;  // its points are kept
  bool was_left = false;    // by quitting
  Next next = Next::open;
};

TallySession::TallySession(TallySettings settings, std::vector<puzzle::Exercise> questions,
                           audience::Evening evening)
    : settings_(std::move(settings)),
      questions_(std::move(questions)),
      evening_(std::move(evening)),
      all_(evening_.asked.size() + questions_.size()),
      by_hand_(::isatty(STDIN_FILENO) == 1),
      has_keys_(is_several() || !settings_.page.empty() || settings_.hide) {
  const bool is_watched = ::isatty(STDOUT_FILENO) == 1 || ::isatty(STDERR_FILENO) == 1;
  if (has_keys_ && !by_hand_ && is_watched) keys_ = std::make_unique<TerminalKeys>();
}

TallySession::~TallySession() = default;

base::Status TallySession::run() {
  const bool typed = by_hand_ || (keys_ && keys_->can_be_typed());
  if (has_keys_ && typed) {
    log_info(is_several() ? "Enter shows the answer, Enter again goes on; q and Enter ends"
                          : "Enter shows the answer, Enter again ends");
  }
  const std::size_t before = evening_.asked.size();
  for (std::size_t i = 0; i < questions_.size(); ++i) {
    Asked asked(questions_[i], before + i + 1, settings_);
    if (auto told = ask(asked); !told) return told;
    if (asked.next == Next::end) break;
  }
  if (is_several() && settings_.json) {
    Output::get().text(report::places_json(audience::places_of(evening_)));
  }
  return kept_;
}

base::Status TallySession::ask(Asked& asked) {
  if (is_several() && !settings_.json) {
    Output::get().line(
        "Question " + std::to_string(asked.number) + " of " + std::to_string(all_) + ": " +
        rules::in_letters(report::task_of(asked.exercise.puzzle), settings_.view.letters));
  }
  if (!settings_.page.empty()) {
    if (auto written = write_page(asked); !written) return written;
  }
  listen(asked);
  if (!kept_) return kept_;
  if (!asked.was_left && !catch_interrupts()) kept_ = settle(asked);
  if (kept_) tell(asked);
  return kept_;
}

void TallySession::listen(Asked& asked) {
  const std::atomic<bool>& stop = catch_interrupts();
  std::string line;
  while (asked.next == Next::open && !stop && kept_) {
    std::optional<TallyKey> key;
    const LineInput::State state = input_.next(line, audience::longest_line, redraw_every);
    if (state == LineInput::State::ended) asked.next = Next::end;
    if (state == LineInput::State::line) key = take(asked, line);
    if (!key && keys_) {
      bool was_typed = false;
      key = keys_->next(was_typed);
      if (was_typed) live_.moved_down();
    }
    if (key) kept_ = act(asked, *key);
    show(asked, key.has_value());
  }
  if (stop) asked.next = Next::end;
}

// A key that was typed between the answers comes back.
std::optional<TallyKey> TallySession::take(Asked& asked, const std::string& line) {
  if (by_hand_ && has_keys_) {
    if (const auto key = tally_key(line)) return key;
  }
  if (base::trim(line).empty()) return std::nullopt;
  const Taken taken = asked.take(line);
  if (by_hand_) {
    Output::get().line(reply_to(asked.exercise, taken, settings_));
    Output::get().flush();
  }
  return std::nullopt;
}

base::Status TallySession::act(Asked& asked, TallyKey key) {
  if (key == TallyKey::step) key = asked.is_shown ? TallyKey::next : TallyKey::reveal;
  if (key == TallyKey::next) asked.next = Next::question;
  if (key == TallyKey::quit) {
    asked.next = Next::end;
    asked.was_left = !asked.is_shown;
  }
  if (key != TallyKey::reveal || asked.is_shown) return base::done();
  asked.is_shown = true;
  asked.count.close();
  return settle(asked);
}

// Keeps the points of the question, once.
base::Status TallySession::settle(Asked& asked) {
  if (!is_several() || asked.is_settled) return base::done();
  auto evening = add_question(settings_.score, asked.exercise, asked.count.solvers());
  if (!evening) return std::move(evening).faults();
  evening_ = std::move(*evening);
  asked.is_settled = true;
  return base::done();
}

void TallySession::tell(Asked& asked) {
  asked.verdicts.finish();
  show(asked, true);
  live_.clear();
  Output& out = Output::get();
  const audience::Tally tally = asked.tally(true);
  if (settings_.json) {
    out.text(report::tally_json(asked.exercise, tally, settings_.view.level));
  } else {
    out.text(report::tally_text(asked.exercise, tally, settings_.view));
    const std::string places = report::places_text(audience::places_of(evening_), shown_places);
    if (is_several()) out.text(places.empty() ? "\n" : "\n" + places + "\n");
  }
  out.flush();
}

// The table and the page, but not more than some times a second unless at once.
void TallySession::show(Asked& asked, bool at_once) {
  const auto now = std::chrono::steady_clock::now();
  if (!at_once && now - shown_at_ < std::chrono::milliseconds(redraw_every)) return;
  shown_at_ = now;
  if (live_.is_live() && !by_hand_ && !settings_.json) {
    report::TallyView view = settings_.view;
    view.reveals = !settings_.hide || asked.is_shown;
    live_.show(report::tally_text(asked.exercise, asked.tally(view.reveals), view));
  }
  if (settings_.page.empty() || page_is_lost_) return;
  if (const auto written = write_page(asked); !written) {
    page_is_lost_ = true;
    log_error(written.faults());
  }
}

std::string TallySession::page_of(Asked& asked) const {
  report::TallyView view = settings_.view;
  view.reveals = settings_.reveal || asked.is_shown;
  report::EveningView place;
  if (is_several()) {
    place = {.number = asked.number, .of = all_, .places = audience::places_of(evening_)};
  }
  return report::tally_page(asked.exercise, asked.tally(view.reveals), view, place, KAIROS_VERSION);
}

// Only where it says something else than before.
base::Status TallySession::write_page(Asked& asked) {
  std::string page = page_of(asked);
  if (page == page_) return base::done();
  auto written = base::write_whole_file(settings_.page, page);
  if (written) page_ = std::move(page);
  return written;
}

}  // namespace kairos::cli
