"""What was planted, and which answers are right."""

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["Answer", "Planted", "Spoilt"]


@dataclass(frozen=True, slots=True)
class Answer:
    """One right answer: a rule out of ``rules`` that names something of each group.

    ``within``, where given, is all that its touched leads may be.
    """

    rules: frozenset[str]
    groups: tuple[frozenset[str], ...]
    within: frozenset[str] | None = None

    @classmethod
    def of(cls, rules: str, *groups: Iterable[str], within: Iterable[str] | None = None) -> "Answer":
        """An answer with its rules as one text."""
        inside = None if within is None else frozenset(within)
        return cls(frozenset(rules.split()), tuple(frozenset(g) for g in groups), inside)


@dataclass(frozen=True, slots=True)
class Planted:
    """A fault: its kind, what the hand did, the answers that are right (the first one is the hand's own)."""

    kind: str
    what: str
    answers: tuple[Answer, ...]


class Spoilt(Exception):
    """A draw that finds nothing to spoil in this state."""
