"""Words to points: every spelling of a terminal, a net's name or the chassis leads to one point."""

from collections.abc import Iterable, Mapping
from sys import intern

from netcheck.core.article import with_article
from netcheck.core.circuit import Part, Point
from netcheck.core.diagnostic import Diagnostic, Label
from netcheck.core.kind import Family, Seat
from netcheck.language import tree
from netcheck.model.messages import Near, near, stop

__all__ = ["HUNG_ON", "Found", "PointTable", "lead_name"]

_LUG = Seat.LUG
Found = tuple[int | None, Diagnostic | None]
"""The point that a word means, or why there is none; both None where a message was given before."""

HUNG_ON = "lifted off "
"""How the point that takes a lifted one's place is called, before that one's name."""


def lead_name(part: Part, terminal: str) -> str:
    """A terminal as the trade writes it: ``C51+``, ``R41.1``; a lug stands by its own name."""
    if part.kind.seat is _LUG:
        return part.name
    return f"{part.name}{terminal}" if terminal in ("+", "-") else f"{part.name}.{terminal}"


class PointTable:
    """Every point of a chain of layers; filled while joins are read, then handed over as a tuple."""

    def __init__(self, parts: Iterable[Part], unread: frozenset[str]) -> None:
        self._unread = unread
        self._near = Near()
        self._parts: dict[str, Part] = {}
        self._aliases: dict[str, int] = {}
        self.points: list[Point] = [Point("chassis")]
        self.index: dict[str, int] = {"chassis": 0}
        listed = list(parts)
        for part in listed:
            self._enter(part)
        for part in listed:
            if part.host and part.host in self._parts:
                self._enter_section(part)

    def _enter(self, part: Part) -> None:
        self._parts[part.name] = part
        if part.shape is None:
            return
        ats: list[int] = []
        for terminal in part.shape.terminals:
            name = intern(part.name + terminal.suffix)
            at = self.index.setdefault(name, len(self.points))
            ats.append(at)
            self.points[at : at + 1] = [Point(name, part.name, terminal)]
        # What is put in where something else was taken out is meant from then on.
        own = {part.name + ending: ats[number] for ending, number in reversed(part.shape.spellings)}
        self._aliases.update(own)

    def _enter_section(self, part: Part) -> None:
        """A section's leads are its can's lugs: to solder to ``C30A+`` is to solder to the lug ``C30.A``."""
        for sign, lug in section_lugs(part, self._parts[part.host]):
            if lug not in self.index:
                continue  # the can's own declaration is broken, and told
            self._aliases[f"{part.name}{sign}"] = self._aliases[f"{part.name}.{sign}"] = self.index[lug]

    def add(self, name: str, *, net_name: bool = False) -> int:
        """The point of a net's name or of a lifted bundle; made where it is new."""
        at = self.index.get(name)
        if at is None:
            at = self.index[name] = len(self.points)
            self.points.append(Point(name, net_name=net_name))
        return at

    def bundle(self, name: str) -> int:
        """A new point for what hung on a point that is lifted; it has no name to be found by."""
        self.points.append(Point(f"{HUNG_ON}{name}"))
        return len(self.points) - 1

    def knows_part(self, name: str) -> bool:
        """Whether a part of that name is or was there, in any layer."""
        return name in self._parts

    def is_terminal(self, text: str) -> bool:
        """Whether a text reads as a terminal of a declared part (or the chassis)."""
        return text == "chassis" or text in self._aliases or (text in self.index and not self._net(text))

    def _net(self, text: str) -> bool:
        return self.points[self.index[text]].net_name

    def resolve(self, word: tree.Word, present: Mapping[str, Part]) -> Found:
        """The point that a word means, or why there is none; both None where a message was given before."""
        text = word.text
        at = self.index.get(text)
        if at is not None and (at == 0 or self.points[at].net_name):
            return at, None
        own, at = at, self._aliases.get(text, at)
        if own is not None and own == at and self.points[own].part in present:
            return own, None  # called by its own name, as most are
        owner = self._owner(text)
        if owner and owner not in present:
            return None, self._removed(word, owner)
        if owner and self._parts[owner].shape not in (None, present[owner].shape):
            return self._as_it_was(word, present[owner])
        if at is not None:
            return at, None
        return self._unknown(word, owner, present)

    def lead(self, part: Part, name: str, word: tree.Word) -> Found:
        """The point of a part's lead by its own name, or why there is none: a later file changes the part."""
        at = self.index.get(name)
        return at, None if at is not None else _lost(self._parts[part.name], word)

    def _as_it_was(self, word: tree.Word, part: Part) -> Found:
        """A lead of what a later file makes another part: a 6J5's grid stays pin 5, whatever comes into its socket."""
        shape, ending = part.shape, word.text[len(part.name) :]
        if shape is None:
            return None, None
        suffixes = {spelt: shape.terminals[number].suffix for spelt, number in shape.spellings}
        suffixes |= {terminal.suffix: terminal.suffix for terminal in shape.terminals}
        suffix = suffixes.get(ending)
        return self.lead(part, part.name + suffix, word) if suffix is not None else (None, no_such_terminal(word, part))

    def _owner(self, text: str) -> str:
        """The part that a text would be a terminal of: the longest declared name before a dot or sign."""
        head, dot, _ = text.partition(".")
        if dot and head in self._parts:
            return head
        bare = text.rstrip("+-")
        if bare != text and bare in self._parts:
            return bare
        return text if text in self._parts else ""

    def _removed(self, word: tree.Word, owner: str) -> Diagnostic:
        part = self._parts[owner]
        if part.host and part.shape is not None:
            lug = dict(section_lugs(part, self._parts[part.host])).get(word.text[-1], f"{part.host}.{owner[-1]}")
            return stop(
                "removed-part", word.place, f"`{owner}` is out, but its lug is still there", f"write the lug: `{lug}`"
            )
        return stop("removed-part", word.place, f"`{owner}` is taken out, so nothing can be connected to `{word.text}`")

    def _unknown(self, word: tree.Word, owner: str, present: Mapping[str, Part]) -> Found:
        text = word.text
        if owner:
            part = self._parts[owner]
            return None, None if part.shape is None else no_such_terminal(word, part)
        head = text.partition(".")[0]
        if text in self._unread or head in self._unread or head.rstrip("+-") in self._unread:
            return None, None
        if "." in text:
            guess = self._near(head, present)
            return None, stop("undeclared-name", word.place, f"there is no part `{head}`", guess or _declare(head))
        nets = (p.name for p in self.points if p.net_name)
        guess = self._near(text, present, nets, ("chassis",))
        sign = text[-1] in "+-"
        kind = "part" if sign else "net or part"
        shown = text.rstrip("+-") if sign and text.rstrip("+-") else text
        return None, stop("undeclared-name", word.place, f"there is no {kind} `{shown}`", guess or _declare(shown))


def _declare(name: str) -> str:
    return f"add a line for `{name}`: its kind, then its name"


def _lost(changed: Part, word: tree.Word) -> Diagnostic:
    part = changed.name
    return stop(
        "refused-change",
        changed.place,
        f"changed so, `{part}` is without a lead that the earlier file solders",
        f"what has other leads is another part: `remove {part}`, and declare the new one with `replaces {part}`",
        Label(word.place, "soldered here"),
    )


def section_lugs(section: Part, can: Part) -> tuple[tuple[str, str], ...]:
    """A section's two leads and the can's points that they are: the lug, and the common."""
    own = can.features.returns.get(section.name[-1], "can")
    lug, common = f"{can.name}.{section.name[-1]}", f"{can.name}.{own}"
    positive_common = "common-plus" in can.features.words
    return (("-", lug), ("+", common)) if positive_common else (("+", lug), ("-", common))


def no_such_terminal(word: tree.Word, part: Part) -> Diagnostic:
    """The message for a terminal that a part lacks; says which it has."""
    terminal = word.text[len(part.name) :].lstrip(".")
    refused = part.kind.refused.get(terminal)
    if refused:
        return stop("no-such-terminal", word.place, f"`{word.text}` can be read two ways", refused)
    if not terminal:
        return stop(
            "no-such-terminal",
            word.place,
            f"`{part.name}` is {with_article(part.kind.word)}; say which lead",
            _has(part),
        )
    what = f"`{part.name}` is {with_article(part.kind.word)} and has no {terminal} lead"
    if part.kind.place:
        what = (
            f"`{part.name}` has no lug {terminal}"
            if part.kind.seat is not Seat.LUG
            else f"`{part.name}` is a single lug"
        )
    elif part.kind.family is Family.TUBE:
        what = f"`{part.name}` is {with_article(part.features.type)} and has no {terminal}"
    return stop("no-such-terminal", word.place, what, _has(part, terminal))


def _has(part: Part, wanted: str = "") -> str:
    shape = part.shape
    if shape is None:
        return ""
    words = dict.fromkeys(w for t in shape.terminals for w in (t.name, *t.aliases, t.electrode) if w)
    guess = near(wanted, words) if len(wanted) > 1 else ""
    if guess:
        return guess
    names = [lead_name(part, t.name) for t in shape.terminals]
    if len(names) > 4 and [t.name for t in shape.terminals] == [str(n + 1) for n in range(len(names))]:
        return f"it has {names[0]} to {names[-1]}"
    return "it has " + (", ".join(names[:8]) + (" ..." if len(names) > 8 else "") if names else "no leads yet")
