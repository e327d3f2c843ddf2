"""Findings in the order of the bench: what burns comes first, and no order is in the way of one above it."""

from msgspec.structs import replace

from netcheck.compare.by_itself.in_order import in_order
from netcheck.compare.pair import Pair
from netcheck.compare.pair import compared as pair_of
from netcheck.compare.words.orders import UNORDERED, alternatives
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import Change, Cut, Mend, Put, Wire
from netcheck.core.source import Source
from tests.paper import circuit, compared

SUPPLY = """
mains 117 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 40 mfd 200 V
electrolytic C2 20 mfd 25 V
resistor R1 10k 5 W
resistor R2 470k
resistor R3 470k
capacitor C3 .02 mfd 400 V
net hot: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1
net grid: R2.1, R3.1, C3.1
net cathode: C2+, R1.2
net ground: chassis, P1.2, C1-, C2-, R2.2, R3.2, C3.2
"""


def rules(log: str) -> list[str]:
    report = compared(SUPPLY, f'start from "original.netck"\n{log}')
    assert report.built
    return [d.rule for d in report.diagnostics if d.grade is Grade.STOP]


def test_a_short_of_the_supply_comes_before_what_is_written_above_it() -> None:
    assert rules("lift C3.1\nwire R1.1 to R3.2\n") == ["extra-connection", "missing-connection"]


def test_a_reversed_electrolytic_comes_before_what_is_written_above_it() -> None:
    log = "lift C3.1\nlift C1+, C1-\nwire C1+ to chassis\nwire C1- to R1.1\n"
    assert rules(log) == ["reversed-electrolytic", "missing-connection"]


def test_a_short_behind_a_filter_resistor_comes_first_too() -> None:
    filtered = SUPPLY.replace("net cathode: C2+, R1.2", "net B+2: C2+, R1.2").replace("20 mfd 25 V", "20 mfd 200 V")
    report = compared(filtered, 'start from "original.netck"\nlift C3.1\nwire R1.2 to R3.2\n')
    assert [d.rule for d in report.diagnostics if d.grade is Grade.STOP] == ["extra-connection", "missing-connection"]


def test_a_short_of_a_cathode_bypass_keeps_its_place() -> None:
    assert rules("lift C3.1\nwire C2+ to R3.2\n") == ["missing-connection", "extra-connection"]


def test_a_joint_too_many_among_small_signals_keeps_its_place() -> None:
    assert rules("lift C2+\nwire R2.1 to R3.2\n") == ["missing-connection", "extra-connection"]


def told(pair: Pair, *mends: Mend, grade: Grade = Grade.STOP) -> list[Diagnostic]:
    """What is left of findings with these mends, in the order of their text, whatever they leave of the original."""
    pair = replace(pair, outcome=None)
    labels = [(Label(Source(f"{n}", "x").whole),) for n in range(len(mends))]
    found = [Diagnostic("rule", grade, "so", at, do="do", mends=(m,)) for at, m in zip(labels, mends, strict=True)]
    return list(in_order(pair, found[::-1]))


STRIP = f"{SUPPLY}strip SP1 4 lugs\n"
PAIR = pair_of(circuit(STRIP), circuit(STRIP))


def test_of_two_orders_for_one_lead_the_later_one_waits() -> None:
    first, second = told(PAIR, (Put("C3.1", "SP1.1"),), (Put("C3.1", "SP1.2"),))
    assert first.mends
    assert not second.mends
    assert second.do == "first mend what is told above of C3.1, then run it again"


def test_an_order_that_takes_off_what_another_one_needs_waits() -> None:
    bare = f"{STRIP}wire SP1.1 to SP1.3\n"
    pair = pair_of(circuit(STRIP), circuit(bare))
    _, second = told(pair, (Cut("SP1.1", "SP1.3"),), (Cut("SP1.1", "SP1.3"), Wire("SP1.1", "SP1.2")))
    assert not second.mends


def test_two_orders_at_one_lug_that_can_both_be_done_stand() -> None:
    assert all(d.mends for d in told(PAIR, (Put("C3.1", "SP1.1"),), (Put("R3.1", "SP1.1"),)))


def test_a_wire_of_the_same_colour_is_no_reason_to_wait() -> None:
    assert all(d.mends for d in told(PAIR, (Wire("SP1.1", "SP1.2", "red"),), (Wire("SP1.3", "SP1.4", "red"),)))


def test_what_is_only_noted_is_in_nobodys_way() -> None:
    assert all(d.mends for d in told(PAIR, (Put("C3.1", "SP1.1"),), (Put("C3.1", "SP1.2"),), grade=Grade.NOTE))


def test_orders_that_do_not_put_everything_right_are_not_given() -> None:
    pair = pair_of(circuit(STRIP), circuit(f"{STRIP}wire R2.1 to R3.2\nwire SP1.1 to SP1.3\n"))
    label = (Label(Source("0", "x").whole),)

    def after(*mends: Mend) -> list[Diagnostic]:
        return list(in_order(pair, [Diagnostic("rule", Grade.STOP, "so", label, do="do", mends=(m,)) for m in mends]))

    assert [bool(d.mends) for d in after((Cut("R2.1", "R3.2"),))] == [True]
    first, second = after((Cut("SP1.1", "SP1.3"),), (Change("R1", "22k"),))
    assert first.do == UNORDERED
    assert not first.mends
    assert second.mends  # a value is right whatever the joints are


def test_of_orders_that_do_not_put_everything_right_those_are_given_that_each_leave_less() -> None:
    pair = pair_of(circuit(STRIP), circuit(f"{STRIP}wire R2.1 to R3.2\nwire C1+ to P1.1\n"))
    mends: tuple[Mend, ...] = ((Cut("R2.1", "R3.2"),), (Put("C3.1", "SP1.1"),), (Cut("C1+", "P1.1"),))
    labels = [(Label(Source(f"{n}", "x").whole),) for n in range(len(mends))]
    found = [Diagnostic("rule", Grade.STOP, "so", at, do="do", mends=(m,)) for at, m in zip(labels, mends, strict=True)]
    assert [(bool(d.mends), d.do) for d in in_order(pair, found)] == [(True, "do"), (False, UNORDERED), (True, "do")]


def test_of_two_ways_to_mend_the_one_that_no_earlier_order_is_in_the_way_of_comes_first() -> None:
    first, second = (Put("C3.1", "SP1.1"),), (Put("C3.1", "SP1.2"),)
    other: Mend = (Put("R3.1", "SP1.2"),)
    labels = [(Label(Source(f"{n}", "x").whole),) for n in range(2)]
    either = Diagnostic(
        "rule", Grade.STOP, "so", labels[1], do=alternatives(PAIR, (second, other)), mends=(second, other)
    )
    before = Diagnostic("rule", Grade.STOP, "so", labels[0], do="do", mends=(first,))
    _, later = in_order(replace(PAIR, outcome=None), [before, either])
    assert (later.mends, later.do) == ((other,), alternatives(PAIR, (other,)))
