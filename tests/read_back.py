"""A finding read back as a restorer reads it: its sentence, its picture and its lines must ask for the same acts.

The sentence is read word for word, the picture by the marks in its SVG, the lines as the language has them; no code of
what printed them is used. Of a sentence that names pins by their numbers only (a socket that is mirrored, or one pin
on) nothing is read: its lines and its picture are held against each other.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

__all__ = ["Mark", "complaints"]

Joint = frozenset[str]
Mark = tuple[str, str, frozenset[str]]
"""One mark of a picture: off or on, the line that it is a sign of, the points."""


@dataclass(slots=True)
class Asked:
    """What is to be done: joints undone and made, leads that leave whatever they are on, parts; and so many unnamed."""

    off: set[Joint] = field(default_factory=set)
    on: set[Joint] = field(default_factory=set)
    lifted: set[str] = field(default_factory=set)
    parts: set[tuple[str, str]] = field(default_factory=set)
    unnamed: int = 0


# --- the lines

_WORD = r"([^\s:,\"]+)"


def _of_lines(lines: Iterable[str]) -> Asked:
    asked = Asked()
    for line in lines:
        if found := re.fullmatch(rf"(?:move|lift) {_WORD}(?: to {_WORD})?", line):
            asked.lifted.add(found[1])
            asked.on |= {frozenset((found[1], found[2]))} if found[2] else set()
        elif found := re.fullmatch(rf"at {_WORD}: {_WORD}", line):
            asked.on.add(frozenset(found.groups()))
        elif found := re.fullmatch(rf"cut {_WORD} to {_WORD}", line):
            asked.off.add(frozenset(found.groups()))
        elif found := re.match(rf"wire {_WORD} to {_WORD}", line):
            asked.on.add(frozenset(found.groups()))
        elif found := re.match(rf"(?:change {_WORD} (grounded|insulated)|(remove) {_WORD})", line):
            asked.parts.add((found[2] or found[3], found[1] or found[4]))
        else:
            raise AssertionError(f"no line of a mend: {line}")
    return asked


# --- the sentence

_NAME = r"[^\s:;,()]+"
_SPOKEN = rf"{_NAME}(?: \([^()]*\))?"
_PLACE = rf"{_SPOKEN}(?:, the (?:lug|pin) beside it)?"
_WIRE = rf"the (?:[\w/-]+ )*wire from {_NAME} to {_NAME}"
_THING = rf"(?:{_WIRE}|{_NAME})"
_THINGS = rf"{_THING}(?:(?:, | and ){_THING})*?(?: and \d+ more)?"
_EACH = rf"{_NAME} to {_PLACE}"


def _of_sentence(do: str) -> Asked | None:
    """What the first way of a sentence asks for; None where it tells pins by their numbers."""
    first = do.partition("; or ")[0]
    if "what is soldered there" in first:
        return None
    asked = Asked()
    for clause in first.split("; "):
        _read(asked, clause)
    return asked


def _read(asked: Asked, clause: str) -> None:
    clause = re.sub(r"^(?:turn (?:it|them) round|exchange [^:]*|[a-z ]*round[^:]*|put [^:]*): ", "", clause)
    for pattern, reading in _CLAUSES.items():
        if found := re.fullmatch(pattern, clause):
            reading(asked, *(found.groups() or (clause,)))
            return
    raise AssertionError(f"no order: {clause}")


def _taken(asked: Asked, wire: str, wrong: str, to: str) -> None:
    _moved(asked, wire, _first(wrong), _first(to))


def _several(asked: Asked, things: str, wrong: str | None, to: str) -> None:
    more = re.search(r" and (\d+) more$", things)
    asked.unnamed += int(more[1]) if more else 0
    named = things.removesuffix(more[0]) if more else things
    for thing in re.findall(_THING, re.sub(r"(?:,| and) ", "  ", named)):
        _moved(asked, thing, _first(wrong or ""), _first(to))


def _each(asked: Asked, clause: str) -> None:
    for lead, to in re.findall(rf"({_NAME}) to ({_PLACE})", clause):
        _moved(asked, lead, "", _first(to))


def _on(asked: Asked, one: str, other: str) -> None:
    asked.on.add(frozenset((_first(one), _first(other))))


def _wire_off(asked: Asked, wire: str) -> None:
    asked.off.add(_ends(wire))


def _lead_off(asked: Asked, lead: str, wrong: str | None) -> None:
    _moved(asked, lead, _first(wrong or ""), "")


def _bonded(asked: Asked, seat: str) -> None:
    asked.parts.add(("grounded", seat.partition(".")[0]))


def _insulated(asked: Asked, seat: str) -> None:
    asked.parts.add(("insulated", seat.partition(".")[0]))


def _out(asked: Asked, part: str) -> None:
    asked.parts.add(("remove", part))


_CLAUSES: Mapping[str, Callable[..., None]] = {
    rf"keep ({_NAME})(?: \([^()]*\))? off the chassis: it must sit insulated": _insulated,
    rf"bond ({_NAME})(?: \([^()]*\))? to the chassis": _bonded,
    rf"take ({_WIRE}) off ({_SPOKEN}) and put that end on ({_PLACE})": _taken,
    rf"take off ({_WIRE})": _wire_off,
    rf"take off ({_NAME})(?: from (?:net )?({_SPOKEN}))?": _lead_off,
    rf"take ({_NAME}) out": _out,
    rf"move ({_THINGS})(?: from ({_SPOKEN}))? to ({_PLACE})": _several,
    rf"(?:solder|join) ({_SPOKEN}) to ({_PLACE})": _on,
    rf"{_EACH}(?:, {_EACH})*": _each,
}


def _moved(asked: Asked, thing: str, wrong: str, to: str) -> None:
    """A lead, or the end of a wire that is on the wrong point, from there to another."""
    stays = next(iter(_ends(thing) - {wrong}), "") if " wire " in f" {thing} " else thing
    if " wire " in f" {thing} ":
        asked.off.add(_ends(thing))
    elif wrong:
        asked.off.add(frozenset((thing, wrong)))
    else:
        asked.lifted.add(thing)
    if to:
        asked.on.add(frozenset((stays, to)))


def _ends(wire: str) -> Joint:
    found = re.search(rf"wire from ({_NAME}) to ({_NAME})", wire)
    assert found is not None
    return frozenset(found.groups())


def _first(spoken: str) -> str:
    return spoken.partition(" ")[0].rstrip(",")


# --- held against each other


def complaints(do: str, lines: Sequence[str], marks: Iterable[Mark], sites: Mapping[str, frozenset[str]]) -> list[str]:
    """Where sentence, lines and picture differ; ``sites`` are the points that each lead is soldered to now."""
    wanted = _of_lines(lines)
    said = _of_sentence(do)
    found = [] if said is None else list(_sentence_differs(said, wanted, sites))
    return [*found, *_picture_differs(list(marks), lines, sites)]


def _sentence_differs(said: Asked, wanted: Asked, sites: Mapping[str, frozenset[str]]) -> Iterator[str]:
    if not said.on <= wanted.on or len(said.on) + said.unnamed != len(wanted.on):
        yield f"puts on {_shown(said.on)} and not {_shown(wanted.on)}"
    if said.parts != wanted.parts:
        yield f"parts {sorted(said.parts)} and not {sorted(wanted.parts)}"
    lifted = {frozenset((lead, site)) for lead in wanted.lifted for site in sites.get(lead, frozenset())}
    if not said.off <= wanted.off | lifted:
        yield f"takes off {_shown(said.off)} and not {_shown(wanted.off | lifted)}"
    known = {joint for joint in wanted.off if all(end in sites for end in joint)}
    loose = {joint for joint in known if joint & said.lifted}
    if len(known - loose - said.off) > said.unnamed:
        yield f"leaves {_shown(known - said.off)}"
    named = said.lifted | {end for joint in said.off | said.on for end in joint}
    if len(wanted.lifted - named) > said.unnamed:
        yield f"does not name {sorted(wanted.lifted - named)}"


def _picture_differs(marks: Sequence[Mark], lines: Sequence[str], sites: Mapping[str, frozenset[str]]) -> Iterator[str]:
    if {line for _, line, _ in marks} != set(lines):
        yield f"draws {sorted({line for _, line, _ in marks})} and not {sorted(lines)}"
    for line in lines:
        asked = _of_lines([line])
        held = {lead: sites[lead] for lead in asked.lifted if sites.get(lead)}
        off = {end for joint in asked.off for end in joint}.union(*({lead, *there} for lead, there in held.items()))
        on = {end for joint in asked.on for end in joint}
        for kind, ends in (("take off", off), ("put on", on)) if not asked.parts else ():
            points = {at for mark, act, there in marks for at in there if mark == kind and act == line}
            if points != ends and not _is_of_one_place(points, ends):
                yield f"{kind}: {line} is drawn at {sorted(points)}"


def _is_of_one_place(points: set[str], ends: set[str]) -> bool:
    """Whether a mark is at the pins or lugs of one thing alone, as where a whole socket or strip is turned."""
    return bool(points) and points < ends and len({at.partition(".")[0] for at in points}) == 1


def _shown(joints: Iterable[Joint]) -> list[str]:
    return sorted("-".join(sorted(joint)) for joint in joints)
