"""The places of a set that a hand can be at: those of the supply, and those that lines speak of."""

import re
from collections.abc import Sequence

__all__ = ["Lines", "places_in", "power_places"]

Lines = tuple[str, ...]
"""The lines of a work log."""


def places_in(lines: Sequence[str]) -> list[str]:
    """The lugs and leads that lines speak of as places."""
    found = list[str]()
    for line in lines:
        clauses = re.findall(r"(?:from|to|plus|minus|anode|cathode|wire|at|move) (\S+?)(?=[\s:,]|$)", line)
        found += [place for place in clauses if "." in place or place[-1] in "+-"]
    return found


def power_places(lines: Lines, original: str) -> list[str]:
    """Places of the supply: those of the new parts, and of the nets that carry its power, and the chassis."""
    nets = re.findall(r"^net (\S+):\s+(.*?)(?:#.*)?$", original, re.MULTILINE)
    gone = {name.strip(",") for line in lines if line.startswith("remove") for name in line.split('"')[0].split()[1:]}
    found = ["chassis"]
    for name, leads in nets:
        if re.match(r"B\+|B-|minus|line|in-|high|rect|dbl|fil|ground|bias-|plate$|heat", name):
            every = re.findall(r"[A-Z]+\w*(?:\.[\w-]+|[+-])", leads)
            found += [lead for lead in every if not any(_is_of(lead, part) for part in gone)][:3]
    return list(dict.fromkeys([*found, *places_in([line for line in lines if not line.startswith("change")])]))


def _is_of(lead: str, part: str) -> bool:
    return re.split(r"[.+-]", lead)[0] == part
