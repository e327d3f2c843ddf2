"""The changes that a rewired file declares, made to the original one after the other."""

from msgspec.structs import replace

from netcheck.compare.roles.changing import Changing
from netcheck.compare.roles.expected import ChangedOriginal, shorted
from netcheck.compare.roles.followed import Followed, Leading, Unclear, in_original
from netcheck.compare.roles.meant import with_meant
from netcheck.core.circuit import Circuit, How, Intended, Join, Part
from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.core.source import Place
from netcheck.engine.rule import Finding
from netcheck.model.points import lead_name

__all__ = ["with_declared"]

_TAKEN_OFF = frozenset({"lift", "cut"})


def with_declared(original: Circuit, rewired: Circuit) -> ChangedOriginal:
    """The original with all that is declared.

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
        self.idle: list[Finding] = []
        self.followed: dict[str, str] = {}
        self._begin_from(replace(original, meant=()))
        self._rewired = rewired
        self._seen = shorted(rewired, original) if rewired.intended else rewired
        self._leading = Leading(self._seen)
        for removal in rewired.removals:
            part = original.parts.get(removal.part)
            if removal.bridged and part is not None:
                self._bridge(part, removal.place)

    def _begin_from(self, circuit: Circuit) -> None:
        self._named = circuit  # what a name means in it stays as it is
        self._changing = Changing(circuit)

    @property
    def circuit(self) -> Circuit:
        """The original as it is by now."""
        return self._changing.circuit()

    def _bridge(self, part: Part, place: Place) -> None:
        ends = [self._named.index[lead_name(part, t.name)] for t in part.leads]
        if len(ends) == 2:
            self._changing.made(Join(ends[0], ends[1], How.WIRE, place, place))

    def enter_meant(self) -> None:
        circuit, problems = with_meant(self.circuit, self._rewired)
        self._begin_from(circuit)
        self.idle.extend(problems)

    def change(self, intent: Intended) -> None:
        ends = _Ends(self, intent)
        followed = {lug: self._changing.name_at(at) for lug, at in ends.followed.items()}
        self._changing.begin()
        if not _is_done(self._changing, intent, ends):
            self.idle.append(replace(_without_point(intent, ends), grade=Grade.STOP))
            return
        if self._changing.is_idle:
            self.idle.append(_idle(intent, "changes nothing in the original"))
        self.followed.update(followed)

    def named(self, name: str) -> int | None:
        """The original's point for a point of the rewired file by its name or its role."""
        return in_original(self._named, self._seen, name)

    def led(self, name: str) -> Followed | Unclear:
        """Where a point leads that the original has neither by name nor by role."""
        return self._leading.follow(self._named, self._changing, name)


class _Ends:
    """The points of one declared change as points of the original, through new lugs where the change may end on one.

    What is lifted or cut has to be there already; so has the lead that is moved.
    """

    def __init__(self, plan: _Plan, intent: Intended) -> None:
        self.unclear: dict[str, Unclear] = {}
        self.followed: dict[str, int] = {}
        self.points: list[int | None] = []
        for n, name in enumerate(intent.points):
            at = plan.named(name)
            if at is None and intent.verb not in ("lift", "cut") and (n > 0 or intent.verb != "move"):
                at = self._through(plan, name)
            self.points.append(at)

    def _through(self, plan: _Plan, name: str) -> int | None:
        led = plan.led(name)
        if isinstance(led, Followed):
            self.followed[name] = led.at
            return led.at
        self.unclear[name] = led
        return None


def _is_done(changing: Changing, intent: Intended, ends: _Ends) -> bool:
    """Makes one intended change; whether it has the points that it needs."""
    known = [at for at in ends.points if at is not None]
    needed = {"lift": 1, "move": len(ends.points)}.get(intent.verb, 2)
    if len(known) < needed:
        return False
    if intent.verb == "cut":
        changing.cut_between(known[0], known[1])
        return True
    for at in known if intent.verb == "lift" else known[:1] if intent.verb == "move" else ():
        changing.lifted(at)
    if intent.verb == "move":
        changing.made(Join(known[1], known[0], How.SOLDERED, intent.place, intent.place))
    elif intent.verb != "lift":
        for at in known[1:]:
            changing.made(Join(known[0], at, How.SOLDERED, intent.place, intent.place))
    return True


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
