"""How the model words a mistake: near names, and the one way that its diagnostics are made."""

from collections.abc import Iterable

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.source import Place

__all__ = ["look", "near", "stop"]

# Names on a chassis differ by one figure (C51, C52), so a guess must be close to be worth reading.
_CLOSE = 0.75


def near(name: str, known: Iterable[str]) -> str:
    """``did you mean `NAME`?`` where exactly one known name is close, else nothing."""
    from difflib import get_close_matches

    names = list(known)
    folded = [k for k in names if k.lower() == name.lower()]
    if len(folded) == 1:
        return f"did you mean `{folded[0]}`?"
    found = get_close_matches(name, names, n=2, cutoff=_CLOSE)
    return f"did you mean `{found[0]}`?" if len(found) == 1 else ""


def stop(rule: str, place: Place, headline: str, do: str = "", *others: Label) -> Diagnostic:
    """A mistake that keeps the circuit from being built."""
    return Diagnostic(rule, Grade.STOP, headline, (Label(place), *others), do=do)


def look(rule: str, place: Place, headline: str, do: str = "", *others: Label) -> Diagnostic:
    """Something to look at that does not keep the circuit from being built."""
    return Diagnostic(rule, Grade.LOOK, headline, (Label(place), *others), do=do)
