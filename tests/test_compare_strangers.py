"""Two files that have little in common: the comparison ends, and says that it tried no order."""

from random import Random

import pytest

from netcheck import api
from netcheck.compare.pair import compared
from netcheck.compare.words.closing import UNLIKE, UNSETTLED, closing_lines
from netcheck.core.diagnostic import Grade
from netcheck.core.mend import lines
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
    assert UNLIKE not in closing_lines(pair, ())


@pytest.mark.parametrize(("draw", "parts"), [(draw, parts) for draw in range(1, 9) for parts in (5, 12)])
def test_orders_are_given_only_where_together_they_put_everything_right(draw: int, parts: int) -> None:
    """Nets dealt anew among a few parts: all orders done as printed leave the same nets, or none is printed."""
    before, after = (stranger(one, parts, "drawn") for one in (draw, draw + 10))
    after = Source("rewired.netck", after.text.replace("drawn", "rewired"))
    report = api.compare(before, after, reader({}))
    mends = [line for d in report.diagnostics for mend in d.mends[:1] for line in lines(mend)]
    assert bool(mends) == (UNSETTLED not in report.closing)
    log = "\n".join(('start from "rewired.netck"', *mends))
    done = api.compare(before, Source("done.netck", log), reader({"rewired.netck": after.text}))
    assert not mends or not [d for d in done.diagnostics if d.grade is Grade.STOP and d.rule != "part-missing"]


def test_some_of_these_have_orders_and_some_have_none() -> None:
    closings = [
        api.compare(stranger(n, 5, "drawn"), stranger(n + 10, 5, "rewired"), reader({})).closing for n in range(1, 9)
    ]
    assert {UNSETTLED in closing for closing in closings} == {True, False}
