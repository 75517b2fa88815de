// The public face of the generator (generator.hpp): the side to move and the sort of moves, known
// only at run time, choose the instance that knows them at compile time.
#include "kairos/rules/movegen.hpp"

#include "generator.hpp"

namespace kairos::rules {

namespace {

template <Color us>
void list_sorted(const Position& p, MoveList& list, Moves sort) {
  ListSink sink(list);
  switch (sort) {
    case Moves::all:
      return Generator<us, Moves::all, ListSink>(p, sink).run();
    case Moves::noisy:
      return Generator<us, Moves::noisy, ListSink>(p, sink).run();
    case Moves::quiet:
      return Generator<us, Moves::quiet, ListSink>(p, sink).run();
  }
}

}  // namespace

void legal_moves(const Position& p, MoveList& list, Moves sort) {
  if (p.side_to_move() == white) {
    list_sorted<white>(p, list, sort);
  } else {
    list_sorted<black>(p, list, sort);
  }
}

int count_legal_moves(const Position& p) {
  return p.side_to_move() == white ? count_moves<white>(p) : count_moves<black>(p);
}

bool has_legal_move(const Position& p) {
  return count_legal_moves(p) != 0;
}

}  // namespace kairos::rules
