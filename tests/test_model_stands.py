"""`place` lines: what a ruler shows, to millimetres; what no ruler shows is told."""

import pytest

from tests.paper import built, circuit

SET = """
strip SP1 5 lugs insulated
tube V5 6V6GT
can C30 grounded
section C30A 20 mfd 450 V
"""

LENGTHS = {
    "120 85": (120, 85),
    "120 mm 85 mm": (120, 85),
    "120 85 mm": (120, 85),
    "120mm 85": (120, 85),
    ".5 0": (0.5, 0),
    "4 2 in": (101.6, 50.8),
    "4in 2": (101.6, 50.8),
    "4 in 50 mm": (101.6, 50),
    "4-1/2 3/4 in": (114.3, 19.05),
    "4.25 2-3/8 in": (107.95, 60.325),
}


@pytest.mark.parametrize(("written", "mm"), LENGTHS.items())
def test_lengths_in_millimetres(written: str, mm: tuple[float, float]) -> None:
    (stand,) = circuit(f"{SET}place V5 {written}\n").stands
    assert (stand.right, stand.front) == pytest.approx(mm, abs=1e-9)
    assert not stand.turned


WRONG = {
    "place V5 4-5 85": "`4-5` is no length that a ruler shows",
    "place V5 wide 85": "`wide` is no length that a ruler shows",
    "place V5 1/0 85": "`1/0` is no length that a ruler shows",
    "place V5 85 -3": "`-3` is outside of the chassis",
    "place V5 85 1501": "`1501` is 1.5 m from the edge; no chassis is as large",
    "place V5 8 60 in": "`60` is 1.52 m from the edge; no chassis is as large",
    "place C30A 12 3": "`C30A` is in the can `C30` and has no place of its own",
    "place V6 3 3": "there is no part `V6`",
    "place V5 12": "two lengths belong here: from the left edge, and from the back edge",
    "place V5 12 13 14": "`14` does not belong here",
    "place V5 12, 13": "no comma belongs here",
    "place V5 1 1\nplace V5 2 2": "`V5` has two places",
    "place chassis 100 60\nplace V5 101 20": "`V5` would sit beside the chassis, which is 100 by 60 mm",
    "place chassis 100 60\nplace V5 20 61": "`V5` would sit beside the chassis, which is 100 by 60 mm",
}


@pytest.mark.parametrize(("lines", "headline"), WRONG.items())
def test_what_no_ruler_shows_is_told(lines: str, headline: str) -> None:
    made, problems = built(f"{SET}{lines}\n")
    assert made is None
    assert [d.headline for d in problems] == [headline]
    assert all(d.do for d in problems)


def test_a_later_state_says_where_a_thing_went() -> None:
    base = f"{SET}place V5 10 20\nplace SP1 30 40\n"
    later = circuit('start from "base.netck"\nremove C30A\nplace V5 50 60\n', base=base)
    assert {s.part: (s.right, s.front) for s in later.stands} == {"V5": (50, 60), "SP1": (30, 40)}


def test_a_trace_keeps_the_places_and_what_is_gone_has_none() -> None:
    base = f"{SET}place V5 10 20\nplace SP1 30 40 turned\n"
    traced = circuit('parts from "base.netck"\nremove C30A\nremove C30 "out"\n', base=f"{base}place C30 1 1\n")
    assert [(s.part, s.turned) for s in traced.stands] == [("V5", False), ("SP1", True)]


SAID = {
    "4-1/2 3/4 in": ("4-1/2 in", "3/4 in", "4-1/2 by 3/4 in"),
    "4in 2": ("4 in", "2 in", "4 by 2 in"),
    "120 85": ("120 mm", "85 mm", "120 by 85 mm"),
    "4 in 50 mm": ("4 in", "50 mm", "4 in by 50 mm"),
}


@pytest.mark.parametrize(("written", "said"), SAID.items())
def test_a_length_is_said_in_the_unit_of_the_ruler_that_was_used(written: str, said: tuple[str, str, str]) -> None:
    (stand,) = circuit(f"{SET}place V5 {written}\n").stands
    assert (*stand.written, stand.measures) == said
