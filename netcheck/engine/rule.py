"""What a rule is: a name for what is wrong, a severity, a check, and a manual page."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from netcheck.core.diagnostic import Label, Severity, Touched
from netcheck.core.panel import Panel

__all__ = ["Finding", "Rule"]

Subject = TypeVar("Subject")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing wrong, before the rule's name and severity are put on it.

    ``labels`` begin with the main place; ``severity`` is set where it differs from the rule's.
    """

    headline: str
    labels: tuple[Label, ...]
    do: str = ""
    why: str = ""
    touched: Touched = field(default_factory=Touched)
    severity: Severity | None = None
    panel: Panel | None = None


@dataclass(frozen=True, slots=True)
class Rule(Generic[Subject]):
    """A check over a subject (a circuit's graph, or the differences of a pair) and its manual page.

    The page is the rule's module docstring: what, why, ``Fails`` and ``Passes`` examples, ``Source``. With
    ``also_compared`` a comparison rule has the same name and says the same against the original.
    """

    name: str
    severity: Severity
    check: Callable[[Subject], Iterator[Finding]]
    manual: str
    also_compared: bool = False
