"""The acts of a mend: each is a line of a work log that parses and does what it says; a mend is such a layer."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.circuit import Circuit
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire, lines
from netcheck.model.acts import applied
from tests.paper import built, circuit, nets
from tests.strategies import Chassis, chassis

BASE = """
resistor R1 470k
capacitor C1 .02 mfd paper
electrolytic C2 20 mfd 450 V
can C30 insulated
section C30A 20 mfd 450 V
strip SP1 5 lugs foot 3
lug G1 grounded
net B+: R1.1, C1.1, C30A+
at SP1.1: R1.2, C1.2, SP1.2
at SP1.5: C30A-
electrolytic C3 8 mfd 450 V plus SP1.1 minus G1
wire SP1.1 to SP1.4 red
"""


def both_ways(text: str, mend: Mend) -> tuple[Circuit | None, Circuit | None]:
    """The state that the mend's lines make as a work log, and the one that carrying it out makes."""
    written, _ = built("\n".join(('start from "base.netck"', *lines(mend))), base=text)
    try:
        return written, applied(circuit(text), mend)
    except ValueError:
        return written, None


def net(state: Circuit, point: str) -> set[str]:
    found: set[str] = next((set(group) for group in nets(state) if point in group), {point})
    return found - {point}


ACTS: dict[str, tuple[Act, str, set[str]]] = {
    "a lead off all that it is on": (Lift("R1.2"), "R1.2", set()),
    "what hung on a lifted lug stays joined": (
        Lift("SP1.1"),
        "R1.2",
        {"lifted off SP1.1", "C1.2", "SP1.2", "SP1.4", "C3+"},
    ),
    "a lead put elsewhere is off all else": (Put("R1.2", "SP1.5"), "R1.2", {"SP1.5", "C30.can", "C30A-"}),
    "a lead soldered on is beside what it is on": (
        Solder("C2+", "C1.1"),
        "C2+",
        {"C1.1", "B+", "R1.1", "C30.A", "C30A+"},
    ),
    "a point that is joined already may be soldered again": (
        Solder("R1.2", "SP1.1"),
        "R1.2",
        {"SP1.1", "C1.2", "SP1.2", "SP1.4", "C3+"},
    ),
    "a wire taken off": (Cut("SP1.4", "SP1.1"), "SP1.4", set()),
    "a lead unsoldered from one lug alone": (Cut("C1.2", "SP1.1"), "C1.2", set()),
    "a lead of a leads clause unsoldered": (Cut("C3+", "SP1.1"), "C3+", set()),
    "two lugs bent apart": (Cut("SP1.1", "SP1.2"), "SP1.2", set()),
    "a lead listed under a net": (Cut("R1.1", "B+"), "R1.1", set()),
    "a section's lead is its can's lug": (Cut("C30A+", "B+"), "C30.A", {"C30A+"}),
    "a wire": (Wire("SP1.4", "C2-", "black 20 AWG"), "C2-", {"SP1.4", "SP1.1", "R1.2", "C1.2", "SP1.2", "C3+"}),
    "a wire to a section's minus is one to the can's common": (
        Wire("C2+", "C30A-", "blue"), "C2+", {"C30.can", "C30A-", "SP1.5"}),
    "a can bonded": (Bond("C30"), "C30.can", {"chassis", "C30A-", "SP1.5", "SP1.3", "G1", "C3-"}),
    "a foot insulated": (Insulate("SP1"), "SP1.3", set()),
    "a lug insulated": (Insulate("G1"), "G1", {"C3-"}),
    "another part at the same leads": (Change("C3", "10 mfd 500 V"), "C3-", {"G1", "chassis", "SP1.3"}),
    "a part taken out": (Remove("C1", "open"), "R1.2", {"SP1.1", "SP1.2", "SP1.4", "C3+"}),
}  # fmt: skip


@pytest.mark.parametrize(("act", "point", "others"), ACTS.values(), ids=ACTS)
def test_each_act_is_a_line_that_does_what_it_says(act: Act, point: str, others: set[str]) -> None:
    for state in both_ways(BASE, (act,)):
        assert state is not None
        assert net(state, point) == others


def test_a_pulled_tube_leaves_its_socket_and_a_frame_goes_with_its_part() -> None:
    """What is only bolted to a part goes with it; what is soldered to it would have nothing to be on."""
    text = BASE + "tube V1 6J5\nwire V1.8 to SP1.5\ncandohm R60 250 ohm 150 ohm grounded\nat SP1.2: R60.1\n"
    for state in both_ways(text, (Remove("V1"), Change("R60", "resistor 400 ohm"))):
        assert state is not None
        electrodes = {p.name: p.terminal.electrode for p in state.points if p.part == "V1" and p.terminal is not None}
        assert electrodes == {f"V1.{n}": "" for n in range(1, 9)}
        assert [p.name for p in state.points if p.part == "R60" and p.terminal] == ["R60.1", "R60.2"]
        assert "V1.8" in net(state, "SP1.5")


def test_of_two_joints_between_two_points_the_wire_is_cut_first() -> None:
    text = BASE + "wire SP1.1 to R1.2 red\n"
    once, twice = (applied(circuit(text), (Cut("R1.2", "SP1.1"),) * times) for times in (1, 2))
    assert "SP1.1" in net(once, "R1.2")
    assert net(twice, "R1.2") == set()
    assert [j.how.value for j in once.joins if "R1.2" in {once.points[j.a].name, once.points[j.b].name}] == ["soldered"]


def test_a_change_speaks_of_what_it_says_and_keeps_the_rest() -> None:
    for state in both_ways(BASE, (Change("C3", "10 mfd"),)):
        assert state is not None
        assert [q.written for q in state.parts["C3"].features.quantities] == ["450 V", "10 mfd"]


def test_a_part_of_another_kind_has_other_leads() -> None:
    for state in both_ways(BASE, (Change("R1", "choke 12 H"), Remove("C2"))):
        assert state is not None
        assert state.parts["R1"].kind.word == "choke"
        assert set(state.gone) == {"C2"}
        assert [(r.part, r.reason) for r in state.removals] == [("C2", None)]


def test_a_tube_on_fewer_pins_leaves_none_that_it_has_not() -> None:
    """A 6X4 of seven pins in the place of a 12AX7 of nine; what was on pin 9 would have nothing to be on."""
    text = BASE + "tube V1 12AX7\nwire V1.1 to SP1.5\n"
    for state in both_ways(text, (Change("V1", "tube 6X4"),)):
        assert state is not None
        assert [p.name for p in state.points if p.part == "V1" and p.terminal] == [f"V1.{n}" for n in range(1, 8)]
        assert "V1.1" in net(state, "SP1.5")


@pytest.mark.parametrize("type_", ["6K7", "5Y4G", "6R7"])
def test_a_tube_whose_type_reads_as_a_value_is_a_type(type_: str) -> None:
    """6K7 is 6.7 kilohm on a resistor (IEC 60062)."""
    for state in both_ways(BASE + "tube V1 6J5\n", (Change("V1", f"tube {type_}"),)):
        assert state is not None
        assert (state.parts["V1"].features.type, state.parts["V1"].features.quantities) == (type_, ())


REFUSED: dict[str, tuple[Mend, str]] = {
    "a part that is not there": ((Remove("R9"),), "there is no part R9"),
    "a point that is not there": ((Lift("R9.1"),), "there is no point R9.1"),
    "a lift of what is on nothing": ((Lift("C2+"),), "C2\\+ is on nothing"),
    "a lift twice": ((Lift("R1.1"), Put("R1.1", "SP1.4")), "R1.1 is lifted twice"),
    "a cut of no joint": ((Cut("R1.2", "C1.2"),), "no joint from R1.2 to C1.2"),
    "a change twice": ((Change("C3", "8 mfd"), Change("C3", "500 V")), "C3 is changed twice"),
    "a joint to what is removed": ((Remove("C2"), Solder("C2+", "SP1.1")), "C2 is taken out"),
    "a strip taken out from under its joints": ((Remove("SP1"),), "SP1 can't be removed: something is soldered"),
    "a value that can mean two things": ((Change("R1", "50M"),), "can mean"),
    "a value of another kind of part": ((Change("R1", "12 H"),), "a resistor does not have"),
    "a mounting that the part can't have": ((Bond("SP2"),), "which lug of the strip is grounded is not stated"),
    "leads that the other kind does not have": ((Change("R1", "electrolytic 8 mfd"),), "R1.1, which the new part"),
}


@pytest.mark.parametrize(("mend", "why"), REFUSED.values(), ids=REFUSED)
def test_what_a_work_log_is_refused_is_a_fault(mend: Mend, why: str) -> None:
    text = BASE + "strip SP2 3 lugs\n"
    assert both_ways(text, mend) == (None, None)
    with pytest.raises(ValueError, match=why):
        applied(circuit(text), mend)


def test_the_refusal_of_a_cut_names_a_joint_that_can_be_cut() -> None:
    _, problems = built('start from "base.netck"\ncut R1.2 to C1.2\n', base=BASE)
    assert [(d.headline, d.do) for d in problems] == [
        (
            "no joint from `R1.2` to `C1.2` comes from the earlier file",
            "write `cut R1.2 to SP1.1`, or name another joint that is there",
        )
    ]


def some_acts(of: Chassis, rng: random.Random) -> Mend:
    """A few acts on a chassis, some of them on what is not there."""
    state = circuit(of.text())
    points = [*of.points, "chassis", *(p.name for p in state.points if p.net_name)]
    parts = [*state.parts, "R7"]
    joined = [(state.points[j.a].name, state.points[j.b].name) for j in state.joins] or [("R7.1", "R7.2")]

    def act() -> Act:
        a, b, part = rng.choice(points), rng.choice(points), rng.choice(parts)
        cut = Cut(*rng.choice(joined))
        makers = (Lift(a), Put(a, b), Solder(a, b), cut, Wire(a, b, "red"), Bond(part), Insulate(part), Remove(part))
        return rng.choice((*makers, Change(part, "33k"), Change(part, "450 V"), Cut(a, b)))

    return tuple(act() for _ in range(rng.randint(1, 4)))


@given(chassis(), st.randoms(use_true_random=False))
def test_a_mend_carried_out_is_the_work_log_of_its_lines(of: Chassis, rng: random.Random) -> None:
    mend = some_acts(of, rng)
    written, done = both_ways(of.text(), mend)
    assert (written is None) is (done is None), lines(mend)
    if written is not None and done is not None:
        assert nets(written) == nets(done)
        assert {n: (p.features, p.kind.word, p.shape) for n, p in written.parts.items()} == {
            n: (p.features, p.kind.word, p.shape) for n, p in done.parts.items()
        }
        assert set(written.gone) == set(done.gone)
        assert {(t.point, t.verb) for t in written.taken} == {(t.point, t.verb) for t in done.taken}


@given(chassis(), st.randoms(use_true_random=False))
def test_what_a_mend_leaves_can_be_mended_on(of: Chassis, rng: random.Random) -> None:
    first, second = some_acts(of, rng), some_acts(of, rng)
    try:
        done = applied(applied(circuit(of.text()), first), second)
    except ValueError:
        return
    middle = "\n".join(('start from "base.netck"', *lines(first), ""))
    written = circuit("\n".join(('start from "middle.netck"', *lines(second))), base=of.text(), middle=middle)
    assert nets(written) == nets(done)
