// PGN. The same bytes give the same games and faults, however the source cuts them; every game of
// the file is accounted for, and a sound game behind any damage is read; what is written for a game
// reads as that game again, and without a fault.
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/tokens.hpp"
#include "kairos/pgn/writer.hpp"

#include "property.hpp"

using namespace kairos;
using fuzz::must_hold;

namespace {

struct Outcome {
  std::vector<std::string> games;  // as written again; "" for one that was refused
  std::vector<std::string> faults;
  std::uint64_t games_met = 0;

  friend bool operator==(const Outcome&, const Outcome&) = default;
};

Outcome read_in_pieces(std::string_view text, std::size_t piece) {
  base::MemorySource source(text, piece);
  base::FaultList faults;
  pgn::Reader reader(source, "input", faults);
  Outcome outcome;
  while (auto game = reader.next()) {
    const pgn::Replay replay = pgn::replay(*game, faults);
    if (replay.fault) faults.report(*replay.fault);
    const bool refused = replay.state == pgn::Replay::State::refused;
    must_hold(refused || pgn::main_line_moves(*game).size() == replay.plies,
              "the main line has as many moves as were replayed");
    outcome.games.push_back(refused ? "" : pgn::to_pgn(*game));
  }
  outcome.games_met = reader.games();
  for (const base::Fault& fault : faults.faults) outcome.faults.push_back(describe(fault));
  return outcome;
}

void check_pieces(std::string_view text, std::size_t piece) {
  must_hold(read_in_pieces(text, text.size()) == read_in_pieces(text, piece),
            "pieces of any size give the same games");
}

void check_rewritten(const std::string& written) {
  const Outcome again = read_in_pieces(written, written.size());
  must_hold(again.games.size() == 1, "one game written is one game read");
  must_hold(again.games[0] == written, "write, read, write give the same text");
  for (const std::string& fault : again.faults) {
    // The game may well be odd; the way it is written may not.
    const bool of_the_game = fault.find("contradicts") != std::string::npos;
    must_hold(of_the_game, "what is written holds no fault");
  }
}

// Whatever the damage, it ends where the tags of the next game stand.
void check_next_game(const std::string& text) {
  const std::string with_next = text + "\n\n[Event \"next\"]\n[Site \"here\"]\n\n1. e4 e5 1-0\n";
  base::MemorySource source(with_next);
  base::FaultList faults;
  pgn::Reader reader(source, "input", faults);
  std::string last;
  while (const auto game = reader.next()) {
    last.clear();
    for (const pgn::NodeId id : game->main_line()) last += game->san_text(game->nodes[id]);
    last += pgn::to_string(game->result);
  }
  must_hold(reader.failure() || last == "e4e51-0", "the next game is read");
}

void check_tokens(std::string_view text) {
  base::MemorySource source(text);
  pgn::TokenStream tokens(source);
  std::uint64_t before = 0;
  while (tokens.next().kind != pgn::TokenKind::end) {
    must_hold(tokens.bytes() > before, "each token moves the reader on");
    before = tokens.bytes();
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  // The last byte chooses the piece, so that seeds may be plain files, and whether much stands
  // behind the text: then the window slides on at every block of it in pieces, and not at all at
  // once.
  const std::size_t piece = data[size - 1] % 64U + 1;
  const std::size_t behind = data[size - 1] % 5 == 0 ? 40'000 : 0;
  const std::string_view text = fuzz::text_of(data, size);
  const Outcome whole = read_in_pieces(text, size);
  check_pieces(std::string(text) + std::string(behind, '\n'), piece);
  must_hold(whole.games.size() == whole.games_met, "every game is accounted for");
  for (const std::string& game : whole.games) {
    if (!game.empty()) check_rewritten(game);
  }
  check_next_game(std::string(text));
  check_tokens(text);
  return 0;
}
