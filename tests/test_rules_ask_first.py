"""A rule asks whether there is anything to look at before it loads an engine: each alone, the engines out of reach."""

import sys

import pytest

from netcheck.electrical.network.supplies import has_supply, is_driven
from netcheck.engine.rule import Listed
from netcheck.engine.run import run
from netcheck.model.graph import CircuitGraph
from netcheck.rules import RULES
from tests.paper import circuit

BENCH = """
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V
resistor R1 22k 1/2 W
tube V1 6J5
fuse F1 1 A
capacitor C2 .1 mfd 400 V
net B+: D1.cathode, C1+, R1.1, F1.1, C2.1
net plate: R1.2, V1.plate
net ground: chassis, C1-, V1.cathode, V1.heater-1, C2.2
volts B+ 250 V
draws B+ 10 mA
"""
# A rectifier whose line comes from nowhere that the file says.
UNDRIVEN = f"""{BENCH}
resistor R2 100 ohm 1 W
net in: D1.anode, R2.1
at ground: R2.2
"""

ENGINES = ("running", "proof.rows", "proof.verdict", "proof.bounds", "proof.prover", "proof.peaks", "table", "study")
ASKED_OF = (
    "stress", "polarities", "duties", "drawn", "shorts", "starting", "overload", "off_chart", "emptied", "on_windings",
    "opposed",
)  # fmt: skip


def blocked(monkeypatch: pytest.MonkeyPatch, *names: str) -> None:
    for name in names:
        full = f"netcheck.electrical.{name}"
        for module in [full, *(each for each in sys.modules if each.startswith(f"{full}."))]:
            monkeypatch.setitem(sys.modules, module, None)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_of_a_set_without_line_or_supply_no_rule_loads_what_looks_at_them(
    rule: Listed[CircuitGraph], monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked(monkeypatch, *ASKED_OF, *ENGINES, "mains", "network.translate")
    graph = CircuitGraph(circuit(BENCH.replace("diode D1 1000 V 1 A", "resistor D1 1k").replace("D1.cathode", "D1.1")))
    run([rule], graph)


# What asks for a rectifier's proof needs no volts.
@pytest.mark.parametrize(
    "rule",
    [rule for rule in RULES if rule.name not in {"reversed-electrolytic", "polarity-unproven", "chart-contradicts"}],
    ids=lambda rule: rule.name,
)
def test_of_a_supply_that_nothing_drives_no_rule_loads_what_computes_its_volts(
    rule: Listed[CircuitGraph], monkeypatch: pytest.MonkeyPatch
) -> None:
    graph = CircuitGraph(circuit(UNDRIVEN))
    assert has_supply(graph)
    assert not is_driven(graph)
    blocked(monkeypatch, *ASKED_OF, *ENGINES)
    run([rule], graph)
