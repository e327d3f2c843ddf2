"""One state under the hands: what can be spoilt, what it did to the nets, and what an answer must name."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from random import Random
from typing import TypeVar

from tests.campaign.chassis import CHASSIS, Chassis, Joint, Nets, Part, lugs_of
from tests.campaign.planted import Answer, Planted, Spoilt
from tests.campaign.rewriting import COLOURS, is_fixed
from tests.campaign.sameness import Labels, labels_of, members, same
from tests.campaign.sockets import SOCKETS

__all__ = ["Bench"]

T = TypeVar("T")

_SMALL = 4  # leads of a net in which an equally good other answer is looked for


class Bench:
    """A chassis with one fault being made: ``before`` are the nets of the state as it came."""

    def __init__(self, chassis: Chassis, original: Chassis, rng: Random) -> None:
        self.chassis = chassis
        self.original = original
        self.rng = rng
        self.before: Nets = chassis.nets()
        self.fixed: Nets = chassis.fixed()
        self.homes: Nets = chassis.homes()
        self.labels: Labels = labels_of(chassis)
        self.numbers = chassis.components()

    @cached_property
    def after(self) -> Nets:
        """The nets when the fault is made; asked for once it is."""
        return self.chassis.nets()

    def pick(self, found: Sequence[T]) -> T:
        """One of what can be spoilt, each as likely."""
        if not found:
            raise Spoilt
        return self.rng.choice(found)

    def one_of(self, *ways: "Callable[[Bench], Planted]") -> Planted:
        """A fault made in one of several ways, each as likely; another one where the state has no place for it."""
        for way in self.rng.sample(ways, len(ways)):
            try:
                return way(self)
            except Spoilt:
                continue
        raise Spoilt

    # --- what is there

    def part_of(self, lead: str) -> Part:
        """The part of a lead."""
        return self.chassis.parts[self.labels[lead][0]]

    def movable(self) -> list[str]:
        """Compared leads that a hand can move: soldered ones, and pins by what is soldered to them."""
        held = {end for j in self.chassis.joints for end in (j.a, j.b) if j.how != "inside"}
        moulded = {j.b for j in self.chassis.joints if j.how == "inside"}
        leads = [lead for lead in self.chassis.compared() if self.part_of(lead).kind != "section"]
        return [lead for lead in leads if lead in held and lead not in moulded and not lead.endswith(".frame")]

    def places(self) -> list[str]:
        """Every node with a joint, lugs and leads alike, and the chassis; hubs of inherited nets are no places."""
        used = {end for j in self.chassis.joints for end in (j.a, j.b) if not end.startswith("net:")}
        return sorted(used | {CHASSIS})

    def net_of(self, node: str) -> int:
        """The net of a node before the fault; 0 where it is on none."""
        return self.numbers.get(node, 0)

    def compared_nets(self) -> frozenset[int]:
        """The nets that hold a compared lead."""
        return frozenset(self.before.values())

    def neighbours(self, node: str) -> list[str]:
        """The lugs or pins beside a lug or pin."""
        part = self.chassis.owner(node)
        if part is None or part.kind == "lug":
            return []
        row = list(lugs_of(part)) if part.kind in ("strip", "can") else self._pins(part)
        row = [n for n in row if not n.endswith(".can")]
        if node not in row:
            return []
        at = row.index(node)
        ring = part.kind == "tube"
        return [row[i % len(row)] for i in (at - 1, at + 1) if ring or 0 <= i < len(row)]

    def _pins(self, part: Part) -> list[str]:
        if part.kind == "tube":
            return [f"{part.name}.{pin}" for pin in pins_of(part)]
        return [f"{part.name}.{n}" for n in range(1, part.count + 1)] if part.kind == "plug" else []

    # --- what hands do

    def take_off(self, lead: str) -> None:
        """Takes a lead off everything; what hung on it stays together."""
        mine = [j for j in self.chassis.joints if j.has(lead) and j.how != "inside"]
        self.chassis.joints = [j for j in self.chassis.joints if j not in mine]
        others = [(j, self._stand_in(j.other(lead), lead)) for j in mine]
        nodes = [(j, node) for j, node in others if node]
        if not nodes:
            return
        base = nodes[0][1]
        for joint, node in nodes[1:]:
            if node == base:
                continue
            how = "solder" if joint.how == "solder" and joint.b == node else "wire"
            self.chassis.joints.append(Joint(base, node, how, joint.words))

    def _stand_in(self, node: str, lead: str) -> str:
        """The node itself; for an inherited net's name some other node of the net."""
        if not node.startswith("net:"):
            return node
        return next((j.b for j in self.chassis.joints if j.a == node and j.b != lead), "")

    def put(self, place: str, lead: str) -> None:
        """Solders a lead to a place; a pin by a wire."""
        how = "wire" if is_fixed(self.chassis, lead) else "solder"
        self.chassis.joints.append(Joint(place, lead, how, self.rng.choice(COLOURS) if how == "wire" else ""))

    def exchange(self, names: dict[str, str]) -> None:
        """Gives every joint of a node to the node that the table says; an inherited joint becomes a soldered one."""
        seats = {j.a: self._seat(j.a, names) for j in self.chassis.joints if j.how == "hub" and j.b in names}
        made: list[Joint] = []
        for joint in self.chassis.joints:
            if joint.how == "inside" or not (joint.a in names or joint.b in names):
                made.append(joint)
            elif joint.how == "hub":
                lead = names[joint.b]
                seat = seats[joint.a] or joint.a
                made.append(Joint(seat, lead, "wire" if is_fixed(self.chassis, lead) else "solder"))
            else:
                made.append(joint.renamed(names))
        self.chassis.joints = made

    def _seat(self, hub: str, names: dict[str, str]) -> str:
        """A node that stays on an inherited net."""
        return next((j.b for j in self.chassis.joints if j.how == "hub" and j.a == hub and j.b not in names), "")

    def reword(self, part: Part, words: tuple[str, ...]) -> None:
        """Other values or properties."""
        self.chassis.parts[part.name] = replace(part, words=words, changed=not part.own)

    # --- what it did

    def names(self, node: str) -> frozenset[str]:
        """Every name that a node goes by in a report."""
        found = {node, *self.chassis.tied(node)}
        for part in self.chassis.parts.values():
            if part.kind == "section":
                found.update(lead for lead in part.leads if self.chassis.node(lead) in found)
        if node.endswith(".can"):
            found.add(node.removesuffix(".can") + "-")
        more = {self.chassis.node(name) for name in found}
        return frozenset(found | more)

    def rules(self, lead: str) -> str:
        """What is wrong with a lead by where it was and with what it is now."""
        home = self.homes
        references = {home[CHASSIS], home.get("common", -9)}
        at_home = home[lead] in references
        mates = [o for o, net in self.after.items() if net == self.after[lead] and o in home]
        strangers = {home[o] for o in mates} - {home[lead]}
        if not strangers:
            return "floating-ground" if at_home else "missing-connection"
        if at_home and strangers <= references:
            return "return-on-wrong-common"
        # Where nothing stayed on the lead's own net, that net as a whole is joined to another.
        stayed = any(net == home[lead] and o not in mates for o, net in home.items())
        return "lead-on-wrong-net" if stayed else "lead-on-wrong-net extra-connection"

    def lead_answers(self, lead: str) -> tuple[Answer, ...]:
        """The lead, and any other lead whose move alone would mend the chassis just as well."""
        found = [self._one_lead(lead)]
        suspects = [o for net in self._touched(lead) if len(net) <= _SMALL for o in net if o != lead]
        suspects += [o for o in self.part_of(lead).leads if o != lead]
        spots = {self.after[o] for net in self._touched(lead) for o in net}
        for other in dict.fromkeys(suspects):
            if other in (CHASSIS, "common") or other not in self.after:
                continue
            if any(self.mends({other: spot}) for spot in (*spots, -5)):
                found.append(self._one_lead(other))
        return (*found, *self.idle(lead))

    def idle(self, *leads: str) -> Iterator[Answer]:
        """An inserted part that came to be with both ends on one net: that it does nothing is as good an account."""
        for part in {self.part_of(lead).name: self.part_of(lead) for lead in leads}.values():
            if part.claim == "inserted" and len({self.after[lead] for lead in part.leads}) == 1:
                yield Answer.of("unused-intent", {part.name})

    def _touched(self, lead: str) -> list[list[str]]:
        """The nets that a moved lead left and came to, as they are now."""
        now = members(self.after)
        left = {self.after[o] for o, net in self.before.items() if net == self.before[lead] and o != lead}
        return [now[net] for net in {self.after[lead], *left}]

    def mends(self, places: dict[str, int]) -> bool:
        """Whether the nets are sound again once some leads are on other nets, by number."""
        return same({**self.after, **places}, self.labels, self.before, self.labels)

    def _one_lead(self, lead: str) -> Answer:
        node, rules = self.chassis.node(lead), self.rules(lead)
        if len(self.chassis.tied(node)) > 1 or "extra-connection" in rules:  # told as a bridge, of both its nets
            return Answer.of(rules, self.names(node))
        own = {n for o in self.part_of(lead).leads for n in self.names(self.chassis.node(o))}
        return Answer.of(rules, self.names(node), within=own)

    def group_answer(self, leads: Iterable[str], rules: str = "") -> Answer:
        """A group of leads that is told as one: any of them, and none of the others."""
        group = sorted(self._through(set(leads) - {CHASSIS, "common"}))
        names = {n for lead in group for n in self.names(self.chassis.node(lead))}
        # Ends that may change places bear the other end's name in the other file.
        own = {o for lead in group for o in self.part_of(lead).leads if self.labels[o] == self.labels[lead]}
        return Answer.of(rules or self.rules(group[0]), names, within=names | own)

    def _through(self, leads: set[str]) -> set[str]:
        """A group with what hangs on it through inserted parts, which the original does not know."""
        found = set(leads)
        for part in self.chassis.inserted():
            if not set(part.leads).isdisjoint(found):
                nets = {self.after[lead] for lead in part.leads} - {self.after[CHASSIS]}
                found.update(o for o, net in self.after.items() if net in nets)
        return found - {CHASSIS, "common"}

    def pair_answers(self, rules: str, one: str, other: str) -> tuple[Answer, ...]:
        """Two leads that changed places, and any other pair whose exchange would mend the chassis as well."""
        found = [Answer.of(rules, self.names(self.chassis.node(one)), self.names(self.chassis.node(other)))]
        parts = self.part_of(one), self.part_of(other)
        if parts[0] is not parts[1] and self._whole(*parts):
            found.append(Answer.of("parts-exchanged leads-exchanged", {parts[0].name}, {parts[1].name}))
        for a, b in self._other_pairs(one, other):
            if self.mends({a: self.after[b], b: self.after[a]}):
                names = self.names(self.chassis.node(a)), self.names(self.chassis.node(b))
                found.append(Answer.of("leads-exchanged", *names))
        return (*found, *self._single(one, other), *self.idle(one, other))

    def _single(self, one: str, other: str) -> Iterator[Answer]:
        """One lead of the two nets whose move alone would mend the chassis as well."""
        now = members(self.after)
        mine, its = self.after[one], self.after[other]
        for at, to in ((mine, its), (its, mine)):
            for lead in now[at] if len(now[at]) <= _SMALL else ():
                if lead in self.after and lead not in (CHASSIS, "common", one, other) and self.mends({lead: to}):
                    yield self._one_lead(lead)

    def _other_pairs(self, one: str, other: str) -> list[tuple[str, str]]:
        """Pairs that may be as good: of two small nets any, else the other ends of parts whose ends are alike."""
        now = members(self.after)
        firsts, seconds = now[self.after[one]], now[self.after[other]]
        if len(firsts) > _SMALL or len(seconds) > _SMALL:
            firsts = [o for o in self.part_of(one).leads if self.labels[o] == self.labels[one]]
            seconds = [o for o in self.part_of(other).leads if self.labels[o] == self.labels[other]]
        pairs = [(a, b) for a in firsts for b in seconds if not {a, b} & {CHASSIS, "common"}]
        return [pair for pair in pairs if set(pair) != {one, other}]

    def _whole(self, one: Part, other: Part) -> bool:
        """Whether exchanging two parts as wholes would mend what is wrong: their other leads share their nets."""
        if len(one.leads) != len(other.leads):
            return False
        places = {a: self.after[b] for a, b in zip(one.leads, other.leads, strict=True)}
        return self.mends({**places, **{b: self.after[a] for a, b in zip(one.leads, other.leads, strict=True)}})


def pins_of(part: Part) -> tuple[str, ...]:
    """The places of a socket in order."""
    return tuple(SOCKETS[part.type])
