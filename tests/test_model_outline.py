"""How much room a part takes: sockets by their pins, strips by their lugs, which way they run, and what is too near."""

import pytest

from netcheck.model.outline import PITCH, crowded, half_size
from tests.paper import circuit

OCTAL = ("6V6GT", "6J5", "6SQ7", "6K7", "5Y3GT", "6L6")  # of glass and of metal, one with a cap
MINIATURE = ("12AX7", "6AL5", "50C5", "6X4")


def sizes(*lines: str) -> set[tuple[float, float]]:
    parts = [f"{line.format(n)}\n" for n, line in enumerate(lines, 1)]
    return {half_size(part) for part in circuit("".join(parts)).parts.values()}


def test_octal_sockets_are_all_of_one_size_and_larger_than_miniature_ones() -> None:
    octal, miniature = (sizes(*(f"tube V{{}} {type_}" for type_ in types)) for types in (OCTAL, MINIATURE))
    assert len(octal) == len(miniature) == 1
    assert min(octal.pop()) > max(miniature.pop())


@pytest.mark.parametrize("lugs", [1, 5])
@pytest.mark.parametrize("kind", ["strip SP1 {} lugs", "plug P1 {} pins"])
def test_a_strip_is_as_long_as_its_lugs_and_runs_as_it_is_turned(kind: str, lugs: int) -> None:
    (part,) = circuit(kind.format(lugs)).parts.values()
    long, deep = half_size(part)
    assert 2 * long == lugs * PITCH
    assert half_size(part, turned=True) == (deep, long)


def test_a_strip_with_a_foot_and_a_plug_with_a_frame_are_no_longer() -> None:
    assert sizes("strip SP{} 5 lugs foot 3") == sizes("strip SP{} 5 lugs")


def test_what_is_large_is_larger_than_what_is_small() -> None:
    (transformer,), (choke,), (pot,), (resistor,) = (
        sizes(line) for line in ("transformer T{}", "choke L{} 10 H", "pot RV{} 500k", "resistor R{} 1k")
    )
    assert transformer > choke > pot > resistor


# In mm, from memory: an octal socket and a 1 inch can are 28 across, a miniature socket 20, a strip of 4 lugs 38 by 10;
# transformers, chokes, controls, switches and what hangs by its leads need at least what stands beside them.
NEAR = [
    ("tube V1 6V6GT", "tube V2 6J5", "28 0", "27.9 0"),
    ("tube V1 6V6GT", "tube V2 6J5", "0 28", "0 27.9"),
    ("tube V1 12AX7", "tube V2 6AL5", "20 0", "19.9 19.9"),
    ("tube V1 12AX7", "can V2 grounded", "0 24", "0 23.9"),
    ("strip V1 4 lugs", "strip V2 4 lugs", "38 0", "37.9 0"),
    ("strip V1 4 lugs", "strip V2 4 lugs", "0 10", "0 9.9"),
    ("strip V1 4 lugs", "strip V2 4 lugs", "24 0 turned", "23.9 23.9 turned"),
    *(
        (f"{kind} V1", f"{kind} V2", *at)
        for kind, wide, deep in (
            ("transformer", 40, 32), ("choke", 28, 24), ("pot", 24, 20), ("switch", 24, 20), ("resistor", 12, 8),
        )
        for at in ((f"{wide} 0", f"{wide - 0.1} 0"), (f"0 {deep}", f"0 {deep - 0.1}"))
    ),
]  # fmt: skip


@pytest.mark.parametrize(("one", "other", "beside", "crowding"), NEAR)
def test_two_parts_may_touch_and_no_more(one: str, other: str, beside: str, crowding: str) -> None:
    def pairs(at: str) -> list[tuple[str, str]]:
        state = circuit(f"{one}\n{other}\nplace chassis 300 200\nplace V1 0 0\nplace V2 {at}\n")
        return [(a.part, b.part) for a, b in crowded(state)]

    assert pairs(beside) == []
    assert pairs(crowding) == [("V1", "V2")]
