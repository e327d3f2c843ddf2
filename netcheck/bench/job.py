"""What the hands do between two states: what comes off, out, in and on, lug by lug."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from msgspec import Struct

from netcheck.bench.alike import exchanged_names, is_log_of, is_renewed, nets_by_old_names
from netcheck.bench.typed import kind_and_type
from netcheck.core.circuit import Circuit, How, Join, Part
from netcheck.core.kind import MOUNTINGS, Seat
from netcheck.core.mend import Bond, Change, Cut, Insulate, Mend, Remove, Solder, Wire
from netcheck.parts import SOCKET

__all__ = ["Job", "LugWork", "Off", "Refit", "job_of"]

_STATED = frozenset({How.NET, How.SOLDERED, How.LEAD, How.WIRE})


class _Joining(Struct, frozen=True):
    """One joint by the names of its ends: ``at`` is the lug or net, ``lead`` what is put there.

    ``wire`` are its colour and gauge where it is a wire; None where it is not. ``by_name`` says that ``at`` is only
    a net's name, so that no place is known; ``hung`` is what both hang on together in the air, lifted.
    """

    at: str
    lead: str
    wire: str | None = None
    by_name: bool = False
    hung: str = ""


class Off(Struct, frozen=True):
    """A joint to undo; ``wire`` has the colour and gauge of a wire, ``by_name`` is a place known by its net alone."""

    act: Cut
    at: str
    lead: str
    wire: str | None
    by_name: bool


class Refit(Struct, frozen=True):
    """A part taken out for another at the same leads, or mounted in another way: what it was, what it is."""

    act: Change | Bond | Insulate
    was: str
    now: str


class LugWork(Struct, frozen=True):
    """One place to solder: what is put on now, in the order of the hands, and what stays; all are on at the end.

    A wire is at both its lugs, and is put on at each.
    """

    name: str
    net: str
    on: tuple[Solder | Wire, ...]
    stays: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many leads and wires the lug has at the end."""
        return len(self.on) + len(self.stays)


class Job(Struct, frozen=True):
    """The whole work. ``off`` before ``out`` before ``screwed`` before ``refits`` before ``lugs``.

    ``dead`` is what stays in place and is joined to nothing. ``called`` are the ends of ``old`` that the new file calls
    by each other's names.
    """

    off: tuple[Off, ...]
    out: tuple[Part, ...]
    screwed: tuple[Part, ...]
    fitted: tuple[Part, ...]
    refits: tuple[Refit, ...]
    lugs: tuple[LugWork, ...]
    dead: tuple[str, ...]
    called: Mapping[str, str]

    @property
    def acts(self) -> Mend:
        """Everything in the order of hands, each wire once; what is new is at hand."""
        on = (act for lug in self.lugs for act in lug.on if isinstance(act, Solder) or act.a == lug.name)
        return (
            *(one.act for one in self.off),
            *(Remove(part.name) for part in self.out),
            *(one.act for one in self.refits),
            *on,
        )


def job_of(old: Circuit, new: Circuit, *, to_the_letter: bool = False) -> Job:
    """The acts that lead from one state to the other.

    Of a work log these are the joints that it undoes and makes. Of a trace nobody knows which joints were made anew:
    those count that part, and those that join, what was not so before; ``to_the_letter`` all that are written
    otherwise.
    """
    before, after = _joinings(old), _joinings(new)
    names: Mapping[str, str] = {}
    if to_the_letter or is_log_of(old, new):
        off, on = [*(before - after).elements()], [*(after - before).elements()]
    else:
        names = exchanged_names(old, new)
        after = Counter({_renamed(one, names): count for one, count in after.items()})
        off, on = _least(nets_by_old_names(old, new, names), before, after)
    return Job(
        tuple(map(_off, sorted(off, key=_Places(old).of_joint))),
        tuple(part for name, part in old.parts.items() if _is_out(part, new.parts.get(name))),
        tuple(part for name, part in new.parts.items() if name not in old.parts and _is_place(part)),
        tuple(part for name, part in new.parts.items() if name not in old.parts and not _is_place(part)),
        tuple(_refits(old, new)),
        tuple(_lugs(new, on, _stays(after, on))),
        tuple(_dead(new)),
        names,
    )


def _off(one: _Joining) -> Off:
    """What hangs together lifted is joined at no place: the lead comes off the others."""
    at = one.hung or one.at
    return Off(Cut(at, one.lead), at, one.lead, one.wire, one.by_name and not one.hung)


def _is_out(part: Part, now: Part | None) -> bool:
    """Whether a part is taken out; a tube leaves its socket."""
    return now is None or (now.kind is SOCKET and part.kind is not SOCKET)


def _joinings(circuit: Circuit) -> Counter[_Joining]:
    """Every stated joint by name; what hangs together lifted is joined to the first of it."""
    found: list[_Joining] = []
    hanging: list[tuple[int, str]] = []  # what hangs in the air: on which joint of nothing else, the lead
    up: dict[str, str] = {}
    for join in circuit.joins:
        if join.how not in _STATED or join.a == join.b:
            continue
        hubs = [end for end in (join.a, join.b) if _is_bundle(circuit, end)]
        if len(hubs) > 1:
            _join(up, *(_top(up, str(hub)) for hub in hubs))
        elif hubs:
            hanging.append((hubs[0], circuit.points[join.b if hubs[0] == join.a else join.a].name))
        else:
            found.append(_joining(circuit, join))
    first: dict[str, str] = {}
    for hub, name in hanging:
        one = first.setdefault(_top(up, str(hub)), name)
        if name != one:
            found.append(_Joining(one, name, by_name=True, hung=circuit.points[hub].name))
    return Counter(found)


def _is_bundle(circuit: Circuit, at: int) -> bool:
    point = circuit.points[at]
    return at != 0 and not point.part and not point.net_name


def _joining(circuit: Circuit, join: Join) -> _Joining:
    a, b = circuit.points[join.a], circuit.points[join.b]
    if join.how is How.WIRE:
        return _Joining(a.name, b.name, join.words)
    return _Joining(a.name, b.name, by_name=a.net_name)


def _renamed(one: _Joining, names: Mapping[str, str]) -> _Joining:
    return _Joining(names.get(one.at, one.at), names.get(one.lead, one.lead), one.wire, one.by_name, one.hung)


def _least(
    known: Mapping[str, int], before: Counter[_Joining], after: Counter[_Joining]
) -> tuple[list[_Joining], list[_Joining]]:
    """The joints to undo so that no two points are one that are apart in the new state, and those then lacking."""
    kept = [one for one in before.elements() if _one_net(known, one)]
    off = [one for one in before.elements() if not _one_net(known, one)]
    up: dict[str, str] = {}
    for one in kept:
        _join(up, _top(up, one.at), _top(up, one.lead))
    on = []
    for one in after:
        ends = _top(up, one.at), _top(up, one.lead)
        if ends[0] != ends[1]:
            on.append(one)
            _join(up, *ends)
    return off, on


def _top(up: Mapping[str, str], name: str) -> str:
    while name in up:
        name = up[name]
    return name


def _join(up: dict[str, str], one: str, other: str) -> None:
    if one != other:
        up[one] = other


def _one_net(nets: Mapping[str, int], one: _Joining) -> bool:
    return one.at in nets and nets.get(one.at) == nets.get(one.lead)


def _stays(after: Counter[_Joining], on: Iterable[_Joining]) -> Mapping[str, tuple[str, ...]]:
    """What each lug holds besides what is put on."""
    left = after - Counter(on)
    found: dict[str, list[str]] = {}
    for one in left.elements():
        if not one.by_name:
            found.setdefault(one.at, []).append(one.lead if one.wire is None else f"wire to {one.lead}")
            if one.wire is not None:
                found.setdefault(one.lead, []).append(f"wire to {one.at}")
    return {name: tuple(leads) for name, leads in found.items()}


def _refits(old: Circuit, new: Circuit) -> Iterator[Refit]:
    for name, part in new.parts.items():
        was = old.parts.get(name)
        if was is None or _is_out(was, part):
            continue
        if _said(was) != _said(part) or is_renewed(old, new, name):
            yield Refit(_refit(was, part), _said(was), _said(part))


def _refit(was: Part, part: Part) -> Change | Bond | Insulate:
    """Another part, or the same one mounted in another way."""
    if _said(was) != _said(part) and _said(was, mounted=False) == _said(part, mounted=False):
        return Bond(part.name) if part.shape is not None and part.shape.bonded else Insulate(part.name)
    words = _said(part)
    bare = words.removeprefix(part.kind.word).strip()
    # A lamp's number is read behind its kind alone: `change LM1 #47` is a comment and no act.
    return Change(part.name, bare if part.kind is was.kind and not bare.startswith("#") else words)


def _said(part: Part, *, mounted: bool = True) -> str:
    """A part's values and words, its mounting last."""
    features = part.features
    values = (" ".join(q.written.split()) for q in features.quantities)
    words = [word for word in features.words if word not in MOUNTINGS]
    mounting = [word for word in features.words if word in MOUNTINGS and mounted]
    return " ".join((kind_and_type(part), *values, *words, *mounting))


def _is_place(part: Part) -> bool:
    return part.kind.holds_leads


def _lugs(new: Circuit, on: Iterable[_Joining], stays: Mapping[str, tuple[str, ...]]) -> Iterator[LugWork]:
    """The places in the order of the file; a wire is at both its ends, and put on at each."""
    at: dict[str, list[Solder | Wire]] = {}
    for one in on:
        act = Solder(one.lead, one.at) if one.wire is None else Wire(one.at, one.lead, one.wire)
        at.setdefault(one.at, []).append(act)
        if isinstance(act, Wire):
            at.setdefault(one.lead, []).append(act)
    names = _net_names(new)
    for name in sorted(at, key=_Places(new).of):
        leads = sorted(at[name], key=lambda act: isinstance(act, Wire))  # thick leads of parts first, wires over them
        net = new.nets[new.index[name]] if name in new.index else -1
        yield LugWork(name, names.get(net, ""), tuple(leads), stays.get(name, ()))


def _net_names(circuit: Circuit) -> Mapping[int, str]:
    found = {circuit.nets[0]: "chassis"}
    for at, point in enumerate(circuit.points):
        if point.net_name:
            found.setdefault(circuit.nets[at], point.name)
    return found


class _Places:
    """Where a point comes in the file: by its part, then by its place on the part."""

    def __init__(self, circuit: Circuit) -> None:
        self._circuit = circuit
        self._order = {name: at for at, name in enumerate(circuit.parts)}

    def of(self, name: str) -> tuple[int, int]:
        at = self._circuit.index.get(name, 0)
        return (self._order.get(self._circuit.points[at].part, -1), at)

    def of_joint(self, one: _Joining) -> tuple[tuple[int, int], str]:
        return (self.of(one.at if not one.by_name else one.lead), one.lead)


def _dead(new: Circuit) -> Iterator[str]:
    """Cans whose sections are out, and parts that are joined to nothing at all."""
    joined = {new.points[end].part for join in new.joins if join.how in _STATED for end in (join.a, join.b)}
    for part in new.parts.values():
        empty = [letter for letter in part.features.sections if f"{part.name}{letter}" not in new.parts]
        if part.kind.seat is Seat.CAN and empty:
            yield f"{part.name}: section{'s' if len(empty) > 1 else ''} {', '.join(empty)} out, the can stays"
        elif part.name not in joined and not part.host and not _is_place(part):
            yield f"{part.name} ({_said(part)}) stays, joined to nothing"
