"""What the rewired state is to be compared with: the original with the declared changes made to it."""

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.roles.followed import Followed, Unclear, follow, in_original
from netcheck.compare.roles.meant import with_meant
from netcheck.core.circuit import Circuit, How, Intended, Join, Part, Point
from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.core.source import Place
from netcheck.engine.rule import Finding
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.joints import cut, lifted
from netcheck.model.points import HUNG_ON, lead_name

__all__ = ["ChangedOriginal", "expected", "shorted"]


_TAKEN_OFF = frozenset({"lift", "cut"})


class ChangedOriginal(Struct, frozen=True):
    """The original as it should be now, and the declared changes that change nothing.

    ``followed`` are new lugs that a declared change ends on, each with the net of the original that it is taken for.
    """

    circuit: Circuit
    idle: tuple[Finding, ...]
    followed: tuple[tuple[str, str], ...] = ()


def expected(original: Circuit, rewired: Circuit) -> ChangedOriginal:
    """The original with the rewired file's removals, its intended changes and what it means.

    As in a work log what is taken off goes first, then what is meant is entered, then the rest is put on.
    """
    plan = _Plan(original, rewired)
    own = [intent for intent in rewired.intended if intent.place.source.name not in original.sources]
    for intent in own:
        if intent.verb in _TAKEN_OFF:
            plan.change(intent)
    plan.enter_meant()
    for intent in own:
        if intent.verb not in _TAKEN_OFF:
            plan.change(intent)
    return ChangedOriginal(plan.circuit, tuple(plan.idle), tuple(plan.followed.items()))


class _Plan:
    """The original while the declared changes are made to it."""

    def __init__(self, original: Circuit, rewired: Circuit) -> None:
        self.circuit = replace(original, meant=())
        self.idle: list[Finding] = []
        self.followed: dict[str, str] = {}
        self._rewired = rewired
        self._seen = shorted(rewired, original) if rewired.intended else rewired
        for removal in rewired.removals:
            part = original.parts.get(removal.part)
            if removal.bridged and part is not None:
                self.circuit = _bridged(self.circuit, part, removal.place)

    def enter_meant(self) -> None:
        self.circuit, problems = with_meant(self.circuit, self._rewired)
        self.idle.extend(problems)

    def change(self, intent: Intended) -> None:
        circuit = self.circuit
        ends = _Ends(circuit, self._seen, intent)
        changed = _with(circuit, intent, ends)
        if changed is None:
            self.idle.append(replace(_without_point(intent, ends), grade=Grade.STOP))
            return
        if changed.nets[: len(circuit.nets)] == circuit.nets:
            self.idle.append(_idle(intent, "changes nothing in the original"))
        names = CircuitGraph(circuit).net_names if ends.followed else {}
        self.followed.update({lug: names[circuit.nets[at]] for lug, at in ends.followed.items()})
        self.circuit = changed


def shorted(rewired: Circuit, original: Circuit) -> Circuit:
    """The rewired state with every part that is ``inserted`` bridged, so that it must equal the original."""
    joins = list(rewired.joins)
    for part in rewired.parts.values():
        if part.inserted is None or part.name in original.parts or len(part.leads) != 2:
            continue
        a, b = (rewired.index[lead_name(part, t.name)] for t in part.leads)
        if rewired.nets[a] != rewired.nets[b]:
            joins.append(Join(a, b, How.WIRE, part.place, part.place, bridges=part.name))
    if len(joins) == len(rewired.joins):
        return rewired
    return replace(rewired, joins=tuple(joins), nets=closure(len(rewired.points), joins))


def _bridged(circuit: Circuit, part: Part, place: Place) -> Circuit:
    ends = [circuit.index[lead_name(part, t.name)] for t in part.leads]
    if len(ends) != 2:
        return circuit
    return _closed(circuit, (*circuit.joins, Join(ends[0], ends[1], How.WIRE, place, place)))


def _closed(circuit: Circuit, joins: tuple[Join, ...], points: tuple[Point, ...] | None = None) -> Circuit:
    points = points or circuit.points
    return replace(circuit, points=points, joins=joins, nets=closure(len(points), joins))


class _Ends:
    """The points of one declared change as points of the original, through new lugs where the change may end on one.

    What is lifted or cut has to be there already; so has the lead that is moved.
    """

    def __init__(self, circuit: Circuit, rewired: Circuit, intent: Intended) -> None:
        self.unclear: dict[str, Unclear] = {}
        self.followed: dict[str, int] = {}
        self.points: list[int | None] = []
        for n, name in enumerate(intent.points):
            at = in_original(circuit, rewired, name)
            if at is None and intent.verb not in ("lift", "cut") and (n > 0 or intent.verb != "move"):
                at = self._through(circuit, rewired, name)
            self.points.append(at)

    def _through(self, circuit: Circuit, rewired: Circuit, name: str) -> int | None:
        led = follow(circuit, rewired, name)
        if isinstance(led, Followed):
            self.followed[name] = led.at
            return led.at
        self.unclear[name] = led
        return None


def _with(circuit: Circuit, intent: Intended, ends: _Ends) -> Circuit | None:
    """The circuit after one intended change; None where it has no point to change."""
    known = [at for at in ends.points if at is not None]
    if intent.verb == "lift":
        return _lifted(circuit, known) if known else None
    if intent.verb == "move":
        point, to = ends.points
        if point is None or to is None:
            return None
        off = _lifted(circuit, [point])
        return _closed(off, (*off.joins, Join(to, point, How.SOLDERED, intent.place, intent.place)))
    if len(known) < 2:
        return None
    if intent.verb == "cut":
        left, _ = cut(circuit.joins, ((known[0], known[1]),))
        return _closed(circuit, tuple(left))
    new = tuple(Join(known[0], at, How.SOLDERED, intent.place, intent.place) for at in known[1:])
    return _closed(circuit, (*circuit.joins, *new))


def _lifted(circuit: Circuit, points: list[int]) -> Circuit:
    """The points off everything; what hung on each stays joined."""
    bundles = {at: len(circuit.points) + n for n, at in enumerate(points)}
    names = tuple(Point(f"{HUNG_ON}{circuit.points[at].name}") for at in points)
    inner = tuple(j for j in circuit.joins if j.how in (How.INSIDE, How.BOND))
    made = lifted((j for j in circuit.joins if j.how not in (How.INSIDE, How.BOND)), bundles)
    return _closed(circuit, (*made, *inner), (*circuit.points, *names))


def _without_point(intent: Intended, ends: _Ends) -> Finding:
    """Why a declared change can't be made to the original: which new lug leads nowhere, or to two nets."""
    if not ends.unclear:
        return _idle(intent, "names no point of the original")
    lug, led = next(iter(ends.unclear.items()))
    what = f"the intended {intent.verb} ends on `{lug}`, which"
    headline = (
        f"{what} is on two nets of the original at once" if led.nets else f"{what} leads to no net of the original"
    )
    why = f"leads of {led.nets[0]} and of {led.nets[1]} are soldered to it" if led.nets else ""
    do = f"name a point of the net that is meant instead of {lug}, or solder {lug} to that net"
    return Finding(headline, (Label(intent.place),), why=why, do=do, touched=Touched(intent.points))


def _idle(intent: Intended, what: str) -> Finding:
    points = ", ".join(f"`{p}`" for p in intent.points[:3])
    return Finding(
        f"the intended {intent.verb} of {points} {what}",
        (Label(intent.place),),
        do="take `intended` away, or write the change that is meant",
    )
