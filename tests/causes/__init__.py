"""All that can be wrong with a small set, as the bench lists it: each slip and failure, what it changes, what mends it.

A file is one netlist and the list of what is looked for in it, as somebody with the netlist beside it found it right.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from itertools import combinations, pairwise
from pathlib import Path

from netcheck.bench.chassis import Chassis, chassis_of
from netcheck.bench.slips import Cause, exchanges, moves, simple_slips
from netcheck.bench.volts_slips import Failure, both, failures
from netcheck.core.mend import lines
from netcheck.electrical.network.elements import Element, Network, Resistor
from netcheck.electrical.network.translate import network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

__all__ = ["FENCE", "FOLDER", "LISTED", "cases"]

FOLDER = Path(__file__).parent
FENCE = re.compile(r"^~~~(\S+)\n(.*?)^~~~$", re.MULTILINE | re.DOTALL)


def cases() -> Iterator[tuple[str, str, str, str]]:
    """File, netlist, what is listed of it, and the list."""
    for path in sorted(FOLDER.glob("*.md")):
        (_, netlist), *lists = FENCE.findall(path.read_text(encoding="utf-8"))
        for kind, text in lists:
            yield path.stem, netlist, kind, text


def _slips(netlist: str) -> str:
    """Slips of the hands, as changes of a cold chassis's ohms."""
    chassis = chassis_of(CircuitGraph(circuit(netlist)))
    found = [*simple_slips(chassis)]
    found += [slip for joint in chassis.joints for slip in moves(chassis, joint)]
    found += [slip for one, other in combinations(chassis.joints, 2) for slip in exchanges(chassis, one, other)]
    return "".join(f"{_slip(slip, chassis)}\n" for slip in found)


def _slip(slip: Cause, chassis: Chassis) -> str:
    changes = (f"{chassis.names[c.a]} {chassis.names[c.b]} {1 / c.siemens:+.3g} ohm" for c in slip.changes)
    stops = f"; {', '.join(sorted(slip.stops))} does not conduct" if slip.stops else ""
    subject = f" [{slip.subject}]" if slip.subject != slip.words else ""
    return f"{slip.kind.cost:g} {slip.words}{subject}: {'; '.join(lines(slip.mend))} | {', '.join(changes)}{stops}"


def _failures(netlist: str) -> str:
    """Failures of a supply that runs, as other elements of its network."""
    network = network_of(CircuitGraph(circuit(netlist))).network
    return "".join(f"{_failure(one, network)}\n" for one in failures(network))


def _pairs(netlist: str) -> str:
    """Every thirtieth failure with the next of these: what two at once are called and cost."""
    network = network_of(CircuitGraph(circuit(netlist))).network
    return "".join(f"{_failure(both(*pair), network)}\n" for pair in pairwise([*failures(network)][::30]))


def _failure(one: Failure, network: Network) -> str:
    gone = {each.name: each for each in network.elements if each not in one.elements}
    new = {each.name: each for each in one.elements if each not in network.elements}
    changes = [f"{name}: {_change(gone.get(name), new.get(name))}" for name in dict.fromkeys((*gone, *new))]
    marks = f"{' pulses' * one.pulses}{' two' * one.two}{f' adrift {sorted(one.adrift)}' if one.adrift else ''}"
    return f"{one.cost:g}{marks} [{one.subject}] {one.words}: {one.tell} | {'; '.join(changes)}"


def _change(was: Element | None, now: Element | None) -> str:
    """What an element is that there was not, or what of it is another."""
    if now is None:
        return "out"
    if was is None:
        ends = f" {now.a} {now.b} {now.ohms:g} ohm" if isinstance(now, Resistor) else ""
        return f"{type(now).__name__} put in{ends}"
    fields = [(getattr(was, name), getattr(now, name), name) for name in now.__struct_fields__]
    return ", ".join(f"{name} {_short(old)} to {_short(new)}" for old, new, name in fields if old != new)


def _short(value: object) -> str:
    return re.sub(r"\d+\.\d{5,}(e-?\d+)?", lambda number: f"{float(number[0]):.4g}", repr(value))


LISTED: Mapping[str, Callable[[str], str]] = {"slips": _slips, "failures": _failures, "pairs": _pairs}
