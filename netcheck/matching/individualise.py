"""The search behind a match: where refinement leaves alike vertices, one is paired by trial and the rest follows.

What is still alike falls into components, joined through vertices that are not told apart yet. A component that
came out is never touched again: if any pairing of everything exists, one exists with this component as it is. So
a failed try goes back to the choice above it in its own component, not to the one made last.
"""

from collections.abc import Iterator
from enum import Enum, auto

from msgspec import Struct, field

from netcheck.core.budget import Budget
from netcheck.matching.refinement import Partition

__all__ = ["Outcome", "search"]


class Outcome(Enum):
    """What a search came to."""

    SAME = auto()
    DIFFERENT = auto()
    UNDECIDED = auto()


class _Choice(Struct):
    """A component, the vertex of it that is paired by trial, and the new vertices left to try, the next one last.

    ``mark`` is the state to come back to, ``done`` how many members are known to be told apart.
    """

    members: list[int]
    old: int
    left: list[int] = field(default_factory=list)
    mark: int = 0
    done: int = 0


def search(partition: Partition, budget: Budget) -> Outcome:
    """Tells all vertices apart, or says that no way does; gives up when failed tries have walked past the budget."""
    if not partition.settled():
        return Outcome.DIFFERENT
    return _Search(partition, budget).outcome()


class _Search:
    def __init__(self, partition: Partition, budget: Budget) -> None:
        self._partition = partition
        self._budget = budget
        self._given_up = False
        self._counted = partition.walked
        self._choices: list[_Choice] = [_Choice(list(partition.old_vertices()), -1)]

    def outcome(self) -> Outcome:
        while self._choices:
            vertex = self._next_open(self._choices[-1])
            if vertex is None:
                self._choices.pop()
                continue
            self._choices.append(self._choice(vertex))
            self._counted = self._partition.walked
            if not self._advanced():
                return Outcome.UNDECIDED if self._given_up else Outcome.DIFFERENT
        return Outcome.SAME

    def _next_open(self, choice: _Choice) -> int | None:
        """The first member that is not told apart yet."""
        while choice.done < len(choice.members):
            vertex = choice.members[choice.done]
            if not self._partition.is_alone(vertex):
                return vertex
            choice.done += 1
        return None

    def _choice(self, vertex: int) -> _Choice:
        """What to try in a vertex's component: the member with the fewest likenesses."""
        partition = self._partition
        members = list(self._component(vertex))
        old = min(members, key=lambda v: (partition.likenesses(v), v))
        alike = (v for v in partition.members(partition.cell_of(old)) if not partition.is_old(v))
        return _Choice(members, old, sorted(alike, reverse=True), partition.mark())

    def _component(self, vertex: int) -> Iterator[int]:
        seen, waiting = {vertex}, [vertex]
        while waiting:
            at = waiting.pop()
            yield at
            for other in self._partition.neighbours(at):
                if other not in seen and not self._partition.is_alone(other):
                    seen.add(other)
                    waiting.append(other)

    def _advanced(self) -> bool:
        """Pairs the vertex of the last choice by the next candidate that holds; goes back where none is left."""
        while self._choices[-1].old >= 0:
            choice = self._choices[-1]
            self._partition.undo(choice.mark)
            failed, self._counted = self._partition.walked - self._counted, self._partition.walked
            if failed and (not self._budget.spend(failed) or self._budget.left < 0):
                self._given_up = True
                self._partition.met = tuple(self._partition.members(self._partition.cell_of(choice.old)))
                return False
            if not choice.left:
                self._choices.pop()
                continue
            choice.done = 0
            if self._partition.pair(choice.old, choice.left.pop()):
                return True
        return False
