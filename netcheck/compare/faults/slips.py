"""What one hand may have done under the chassis, and how the joints would be had it not done so."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import assert_never

from netcheck.core.circuit import Circuit, How, Join
from netcheck.model.closure import closure

__all__ = ["Astray", "Bridge", "Exchange", "Slip", "Unbonded", "undone"]


@dataclass(frozen=True, slots=True)
class Bridge:
    """A joint that should not be."""

    joint: Join


@dataclass(frozen=True, slots=True)
class Astray:
    """A joint with its end on ``wrong`` where ``right``, the lug beside it, was meant."""

    joint: Join
    wrong: int
    right: int


@dataclass(frozen=True, slots=True)
class Exchange:
    """Two leads soldered each where the other belongs, by point."""

    one: int
    other: int


@dataclass(frozen=True, slots=True)
class Unbonded:
    """A foot, lug, can or frame that the chassis does not reach, by point; ``joint`` is the bond it lacks."""

    joint: Join


Slip = Bridge | Astray | Exchange | Unbonded


def undone(circuit: Circuit, slip: Slip) -> Circuit:
    """The circuit as it would be without a slip."""
    joins = tuple(_joins(circuit, slip))
    return replace(circuit, joins=joins, nets=closure(len(circuit.points), joins))


def _joins(circuit: Circuit, slip: Slip) -> Iterator[Join]:
    match slip:
        case Bridge():
            yield from (join for join in circuit.joins if join is not slip.joint)
        case Unbonded():
            yield from (*circuit.joins, slip.joint)
        case Astray():
            yield from (_put(join, slip.wrong, slip.right) if join is slip.joint else join for join in circuit.joins)
        case Exchange():
            to = {slip.one: slip.other, slip.other: slip.one}
            for join in circuit.joins:
                if join.how in (How.INSIDE, How.BOND) or not to.keys() & {join.a, join.b}:
                    yield join
                else:
                    yield replace(join, a=to.get(join.a, join.a), b=to.get(join.b, join.b))
        case _:
            assert_never(slip)


def _put(join: Join, wrong: int, right: int) -> Join:
    return replace(join, a=right if join.a == wrong else join.a, b=right if join.b == wrong else join.b)
