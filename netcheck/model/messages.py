"""How the model words a mistake: near names, and the one way that its diagnostics are made."""

from collections.abc import Iterable
from itertools import chain

from netcheck.core.budget import Budget
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.source import Place
from netcheck.language import tree
from netcheck.language.colours import is_colour

__all__ = ["LOOKED_AT", "UNSOUGHT", "Near", "look", "near", "one_place", "stop"]

LOOKED_AT = 40_000
"""Names that are held against unknown ones, all together: every name of a chassis against a hundred unknown ones."""

UNSOUGHT = "mend the first unknown names: only there was a near one looked for"

# Names on a chassis differ by one figure (C51, C52), so a guess must be close to be worth reading.
_CLOSE = 0.75


class Near:
    """Looks for near names in one file, as long as there are not too many unknown ones."""

    def __init__(self) -> None:
        self._looking = Budget(LOOKED_AT)

    def __call__(self, name: str, *known: Iterable[str]) -> str:
        """What ``near`` says; once as many names were looked at as may be, that none is looked for."""
        if self._looking.is_spent:
            return UNSOUGHT
        names = list(chain.from_iterable(known))
        self._looking.spend(len(names))
        return near(name, names)


def near(name: str, known: Iterable[str]) -> str:
    """``did you mean `NAME`?`` where exactly one known name is close, else nothing."""
    from difflib import get_close_matches

    names = list(known)
    folded = [k for k in names if _folded(k) == _folded(name)]
    if len(folded) == 1:
        return f"did you mean `{folded[0]}`?"
    found = get_close_matches(name, names, n=2, cutoff=_CLOSE)
    return f"did you mean `{found[0]}`?" if len(found) == 1 else ""


def _folded(name: str) -> str:
    """Without what is most easily typed otherwise: capitals and hyphens."""
    return name.lower().replace("-", "")


def one_place(statement: tree.At) -> tuple[str, str]:
    """What is said of a line that lists the leads of one place as those of a whole strip, and what to write."""
    point = statement.point.text
    words = (word.text for spot in statement.spots for word in (spot.lug, *spot.points) if not is_colour(word.text))
    return (
        f"`{point}` is one place, and its leads are listed with commas between them",
        f"write `at {point}: {', '.join(words)}`",
    )


def stop(rule: str, place: Place, headline: str, do: str = "", *others: Label) -> Diagnostic:
    """A mistake that keeps the circuit from being built."""
    return Diagnostic(rule, Grade.STOP, headline, (Label(place), *others), do=do)


def look(rule: str, place: Place, headline: str, do: str = "", *others: Label) -> Diagnostic:
    """Something to look at that does not keep the circuit from being built."""
    return Diagnostic(rule, Grade.LOOK, headline, (Label(place), *others), do=do)
