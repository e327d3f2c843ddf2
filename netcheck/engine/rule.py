"""What a rule is: a name for what is wrong, how grave it is, a check, and a manual page."""

from collections.abc import Callable, Iterator
from importlib import import_module
from typing import TYPE_CHECKING, Generic, TypeVar

from msgspec import Struct, field

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.mend import Mend

if TYPE_CHECKING:
    from netcheck.core.panel import Panel

__all__ = ["Finding", "Listed", "Rule"]

Subject = TypeVar("Subject")


class Finding(Struct, frozen=True):
    """One thing wrong, before the rule's name and grade are put on it.

    ``labels`` begin with the main place; ``grade`` is set where it differs from the rule's. Of ``mends`` the first is
    the one to do.
    """

    headline: str
    labels: tuple[Label, ...]
    why: str = ""
    do: str = ""
    touched: Touched = field(default_factory=Touched)
    grade: Grade | None = None
    panel: "Panel | None" = None
    mends: tuple[Mend, ...] = ()


class Rule(Struct, Generic[Subject], frozen=True):
    """A check over a subject (a circuit's graph, or the differences of a pair) and its manual page.

    The page is the rule's module docstring: what, why, ``Wrong`` and ``Right`` examples, ``Source``; the right one may
    start from ``wrong.netck`` and say what to change in it. ``about`` is how its findings fare beside others; a rule
    with no relations says ``About.ITSELF``. With ``also_compared`` a comparison rule has the same name and says the
    same against the original: both have one page, and an acceptance may be meant for either. What always ``burns``
    something, or bites, is told before all else.
    """

    name: str
    grade: Grade
    check: Callable[[Subject], Iterator[Finding]]
    manual: str
    about: About
    also_compared: bool = False
    burns: bool = False


class Listed(Struct, Generic[Subject], frozen=True):
    """A rule in the table of its family, by its name; its module is loaded where there is what it speaks of.

    ``family`` is the package of the module. ``where`` tells of a subject whether it has that: elsewhere the rule has
    nothing to say and is not asked.
    """

    family: str
    name: str
    where: Callable[[Subject], bool]

    @property
    def rule(self) -> Rule[Subject]:
        """The rule itself: the ``RULE`` of the module that has its name."""
        found: Rule[Subject] = import_module(f"{self.family}.{self.name.replace('-', '_')}").RULE
        return found
