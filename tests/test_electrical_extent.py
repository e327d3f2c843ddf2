"""How large a supply may be: the last that is worked out, and the first that is not, which is said."""

import pytest

from netcheck.electrical.network.supplies import translated
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit

HEAD = """
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary 1 2 117 V
winding T1 high 3 4 220 V 20 ohm
electrolytic C1 20 mfd 450 V
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
"""


def diodes(count: int) -> str:
    """So many side by side: they share the nodes of one."""
    names = [f"D{number}" for number in range(count)]
    lines = [f"diode {name} 1N4007" for name in names]
    anodes, cathodes = (", ".join(f"{name}.{lead}" for name in names) for lead in ("anode", "cathode"))
    return "\n".join([HEAD, *lines, f"net high: T1.3, {anodes}", f"net B+: C1+, {cathodes}", "net ground: T1.4, C1-\n"])


def chain(nodes: int) -> str:
    """A line with so many nodes in all: the common, the winding's, the first line's, and one behind each resistor."""
    count = nodes - 3
    lines = [f"resistor R{n} 100 ohm\nelectrolytic E{n} 1 mfd 450 V" for n in range(count)]
    nets = [f"net n{n}: R{n}.2, E{n}+{f', R{n + 1}.1' if n + 1 < count else ''}" for n in range(count)]
    minus = ", ".join(f"E{n}-" for n in range(count))
    first = ["diode D1 1N4007", "net high: T1.3, D1.anode", "net B+: C1+, D1.cathode, R0.1"]
    return "\n".join([HEAD, *first, *lines, *nets, f"net ground: T1.4, C1-, {minus}\n"])


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (diodes(16), ""),
        (diodes(17), "the supply has 3 nodes and 17 rectifiers; up to 150 and 16 are worked out"),
        (chain(150), ""),
        (chain(151), "the supply has 151 nodes and 1 rectifier; up to 150 and 16 are worked out"),
    ],
    ids=["16 rectifiers", "17 rectifiers", "150 nodes", "151 nodes"],
)
def test_the_limits_are_where_they_are_said_to_be(text: str, said: str) -> None:
    found = translated(CircuitGraph(circuit(text)))
    assert found.too_large == said
    assert bool(found.network.elements) is not bool(said)


def test_what_is_too_large_is_said_and_nothing_is_told_of_it() -> None:
    report = checked(diodes(17))
    (line,) = (each for each in report.unchecked if "17 rectifiers" in each)
    assert line.startswith("NOT CALCULATED: volts, polarity, ratings, heat and discharge; the supply has")
    assert not [d for d in report.diagnostics if "C1" in d.touched.parts]
