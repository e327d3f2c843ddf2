"""One whole set as a network, element by element: each line is held against the set, formulas and tube data.

310 V have a peak of 438.41 V, and behind half of 200 ohm those of the primary, 5, by the square of 310 / 117; so have
50 V a peak of 70.711 V behind 20.913 ohm. Two selenium plates drop 2 V and 6 ohm, and stand 52 V both ways, twice the
peak. A 5Y3 drops 50 V at 125 mA, which both of its plates carry together.
"""

from pathlib import Path

from netcheck.electrical.network.elements import Element, Network
from netcheck.electrical.network.translate import network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

FOLDER = Path(__file__).parent / "electrical"
ENDS = ("a", "b", "plus", "minus", "anode", "cathode", "plate", "grid")


def _said(network: Network, one: Element) -> str:
    words = [type(one).__name__, one.name]
    for field in one.__struct_fields__[1:]:
        value = getattr(one, field)
        if field in ENDS:
            value = None if value is None else network.names[value]
        elif field == "law":
            value = "/".join(f"{volts:.4g}@{amperes:.4g}" for volts, amperes in value.corners)
        elif isinstance(value, float):
            value = f"{value:.5g}"
        words.append(f"{field}={value}")
    return " ".join(words)


def test_a_set_becomes_this_network() -> None:
    found = network_of(CircuitGraph(circuit((FOLDER / "set.netck").read_text(encoding="utf-8"))))
    lines = [_said(found.network, one) for one in found.network.elements]
    lines += [f"default {each}" for each in found.defaults]
    lines += [f"gap {gap.say} {sorted(gap.elements)} {gap.least} {gap.most}" for gap in found.gaps]
    lines += [f"left out {each}" for each in found.left_out]
    assert "".join(f"{line}\n" for line in lines) == (FOLDER / "network.txt").read_text(encoding="utf-8")
    assert found.covered == {"V5"}
    assert [_said(found.network, one) for one in found.papers] == [
        "Capacitor C5 plus=p2 minus=g3 farads=1e-08 polarised=False volts=400"
    ]
    assert (found.unsaid, found.too_large) == ({}, "")
