"""Two files that have little in common: the comparison ends, and says that it tried no order."""

from random import Random

import pytest

from netcheck import api
from netcheck.compare.pair import compared
from netcheck.compare.words.closing import UNLIKE, UNSETTLED, closing_lines
from netcheck.core.report import Report
from netcheck.core.source import Source
from tests.paper import circuit, reader


def stranger(draw: int, parts: int, state: str) -> Source:
    """Resistors and capacitors whose ends are dealt onto nets."""
    rng = Random(draw)  # noqa: S311 - repeatable, not secret
    lines, ends = [f"state {state}"], []
    for at in range(parts):
        name, what = (f"R{at}", "resistor") if rng.random() < 0.5 else (f"C{at}", "capacitor")
        lines.append(f"{what} {name}")
        ends += [f"{name}.1", f"{name}.2"]
    rng.shuffle(ends)
    count = parts // 2
    lines += [f"net n{at}: {', '.join(ends[at::count])}" for at in range(count)]
    return Source(f"{state}.netck", "\n".join(lines) + "\n")


def reported(parts: int) -> Report:
    return api.compare(stranger(1, parts, "drawn"), stranger(2, parts, "rewired"), reader({}))


def test_of_two_strangers_no_order_is_given_and_that_is_said() -> None:
    report = reported(160)
    assert UNLIKE in report.closing
    assert UNSETTLED not in report.closing
    assert len(report.diagnostics) > 40
    assert all(not found.mends for found in report.diagnostics)


def test_two_of_a_kind_are_no_strangers() -> None:
    drawn = "resistor R1\nresistor R2\nlug G1 insulated\nnet a: R1.1, R2.1\nnet b: R1.2, R2.2, G1\n"
    pair = compared(circuit(f"state drawn\n{drawn}"), circuit(f"state rewired\n{drawn.replace('R1.1, R2.1', 'R2.1')}"))
    assert pair.faults
    assert not pair.strangers
    assert not pair.unsettled
    assert UNSETTLED not in closing_lines(pair, ())


@pytest.mark.parametrize(("draw", "unsettled"), [(1, True), (3, False)])
def test_orders_that_end_elsewhere_say_so(draw: int, *, unsettled: bool) -> None:
    """Nets dealt anew among a dozen parts: each order does something, and it is said where all do not do it all."""
    before, after = (stranger(one, 12, "drawn").text for one in (draw, draw + 10))
    pair = compared(circuit(before), circuit(after.replace("drawn", "rewired")))
    assert all(fault.mends for fault in pair.faults)
    assert pair.unsettled == unsettled
    assert (UNSETTLED in closing_lines(pair, ())) == unsettled
