"""Two files that have little in common: the comparison ends, and says that it tried no order."""

from itertools import product
from random import Random

import pytest

from netcheck import api
from netcheck.compare.pair import compared
from netcheck.compare.words.closing import UNLIKE, UNSETTLED, closing_lines
from netcheck.core.circuit import Circuit
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


@pytest.mark.parametrize(("each", "strangers"), [(40, False), (41, True)])
def test_two_files_with_as_many_parts_of_their_own_are_strangers(each: int, *, strangers: bool) -> None:
    """Parts that each has for itself, whatever joins them; one file with parts too many is none."""
    same = "resistor R1\nnet a: R1.1\nnet b: R1.2\n"
    pots = "".join(f"pot P{n}\nnet p{n}: P{n}.cw\nnet q{n}: P{n}.ccw\n" for n in range(each))
    coils = "".join(f"coil L{n}\nnet p{n}: L{n}.1\nnet q{n}: L{n}.2\n" for n in range(each))
    drawn, rewired = circuit(f"state drawn\n{same}{pots}"), circuit(f"state rewired\n{same}{coils}")
    assert compared(drawn, rewired).strangers is strangers
    assert not compared(drawn, circuit(f"state rewired\n{same}")).strangers


def test_two_of_a_kind_are_no_strangers() -> None:
    drawn = "resistor R1\nresistor R2\nlug G1 insulated\nnet a: R1.1, R2.1\nnet b: R1.2, R2.2, G1\n"
    pair = compared(circuit(f"state drawn\n{drawn}"), circuit(f"state rewired\n{drawn.replace('R1.1, R2.1', 'R2.1')}"))
    assert pair.faults
    assert not pair.strangers
    assert UNLIKE not in closing_lines(pair, ())


def apart(drawn: Circuit, state: Circuit) -> int:
    """The fewest nets to split and join from one to the other, over all ways to lay the parts, whose ends are alike."""
    both = [name for name in drawn.parts if name in state.parts]
    was = {name: (drawn.net_of(f"{name}.1"), drawn.net_of(f"{name}.2")) for name in both}
    now = {name: (state.net_of(f"{name}.1"), state.net_of(f"{name}.2")) for name in both}
    ends = len({net for pair in was.values() for net in pair}) + len({net for pair in now.values() for net in pair})
    ways = product(*([now[name], now[name][::-1]] for name in both))
    return (
        min(
            2
            * len({pair for name, there in zip(both, way, strict=True) for pair in zip(was[name], there, strict=True)})
            for way in ways
        )
        - ends
    )


@pytest.mark.parametrize(("draw", "parts"), [(draw, parts) for draw in range(1, 9) for parts in (5, 12)])
def test_orders_put_everything_right_or_bring_it_nearer_and_say_so(draw: int, parts: int) -> None:
    """Nets dealt anew among a few parts: what is done as printed is the original, or nearer to it than before."""
    before, after = (stranger(one, parts, "drawn") for one in (draw, draw + 10))
    after = Source("rewired.netck", after.text.replace("drawn", "rewired"))
    report = api.compare(before, after, reader({}))
    mends = [line for d in report.diagnostics for mend in d.mends[:1] for line in lines(mend)]
    log = "\n".join(('start from "rewired.netck"', *mends))
    done = api.compare(before, Source("done.netck", log), reader({"rewired.netck": after.text}))
    wrong = [d for d in done.diagnostics if d.grade is Grade.STOP and d.rule != "part-missing"]
    if UNSETTLED not in report.closing:
        assert not mends or not wrong
    elif mends:
        drawn, rewired = circuit(before.text), circuit(after.text)
        of_joints = any(not line.startswith("remove ") for line in mends)  # a part too many is in nobody's nets
        assert apart(drawn, circuit(log, rewired=after.text)) <= apart(drawn, rewired) - of_joints


def test_some_of_these_have_orders_and_some_have_none() -> None:
    closings = [
        api.compare(stranger(n, 5, "drawn"), stranger(n + 10, 5, "rewired"), reader({})).closing for n in range(1, 9)
    ]
    assert {UNSETTLED in closing for closing in closings} == {True, False}
