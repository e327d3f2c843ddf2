"""Lines of parts that go on alike behind the name are read once; what is wrong with them is told of each."""

import gc
import sys
from collections import Counter

from netcheck.core.circuit import Circuit
from netcheck.core.difference import Lead
from netcheck.core.quantity import Dimension
from netcheck.core.source import Source
from netcheck.language import tree
from netcheck.language.parser import parse
from netcheck.model.build import build
from netcheck.system.files import reader


def built(text: str) -> tuple[Circuit | None, list[str]]:
    source = Source("a.netck", text)
    circuit, problems = build(source, reader(source))
    return circuit, [told.headline for told in problems]


def test_equal_lines_share_what_they_say() -> None:
    circuit, _ = built(
        "resistor R1 470k 1/2 W\nresistor R2 470k 1/2 W\nresistor R3 470k 1 W\nnet a: R1.1, R2.1, R3.1\n"
    )
    assert circuit is not None
    one, two, three = (circuit.parts[name].features for name in ("R1", "R2", "R3"))
    assert one is two
    assert one != three


def test_what_is_wrong_is_told_of_every_part() -> None:
    _, told = built("resistor R1 20 mfd\nresistor R2 20 mfd\nnet a: R1.1, R2.1\n")
    assert [line.split(",")[0] for line in told] == ["`20 mfd` is a capacitance"] * 2


def test_an_equal_line_of_another_kind_says_something_else() -> None:
    text = "all capacitors in mmfd\nall resistors in ohm\ncapacitor C1 250\nresistor R1 250\nnet a: C1.1, R1.1\n"
    circuit, told = built(text)
    assert told == []
    assert circuit is not None
    assert [str(circuit.parts[name].features.quantities[0].dimension.value) for name in ("C1", "R1")] == [
        Dimension.CAPACITANCE.value,
        Dimension.RESISTANCE.value,
    ]


def test_a_trace_with_another_convention_reads_the_same_line_otherwise() -> None:
    base = Source("base.netck", "all resistors in kilohm\nresistor R1 2\nnet a: R1.1\n")
    top = Source("top.netck", 'start from "base.netck"\nall resistors in meg\nresistor R2 2\nnet a: R2.1\n')
    circuit, problems = build(top, reader(top, base))
    assert [told.headline for told in problems] == []
    assert circuit is not None
    assert [int(circuit.parts[name].features.quantities[0].amount) for name in ("R1", "R2")] == [2_000, 2_000_000]


def test_what_a_file_makes_thousands_of_is_never_walked_by_the_garbage_collector() -> None:
    """A strip, two resistors and their joints a hundred times: statements and shapes are walked, no more."""
    times = 100
    text = "".join(
        f"strip SP{n} 5 lugs insulated\nresistor R{n} {n}.5k 1 W\nresistor R{n + times} {n} ohm\n"
        f"at SP{n}.1: R{n}.1, R{n + times}.1\nwire SP{n}.2 to SP{n}.3 red\nnet n{n}: R{n}.2, R{n + times}.2\n"
        for n in range(1, times + 1)
    )
    source = Source("a.netck", text)
    build(source, reader(source))  # what is made once is there by then
    before = _walked()
    kept = (parse(source), build(source, reader(source)))
    more = {kind: count for kind, count in (_walked() - before).items() if count >= times / 2}
    assert kept[1][0] is not None
    own = {kind for kind in more if kind.__module__.startswith("netcheck.")}
    assert {kind.__name__ for kind in own if kind.__module__ != tree.__name__} <= {"Shape"}
    assert {kind.__name__ for kind in own} <= {"At", "Net", "Part", "Shape", "Wire"}


def test_what_a_file_makes_thousands_of_has_no_head_for_the_collector() -> None:
    """It would be 16 bytes of each, beside what its class says that an object takes."""
    source = Source("a.netck", "resistor R1 470k\nstrip SP1 3 lugs\nat SP1.1: R1.1\n")
    statement = parse(source)[0].statements[0]
    circuit, _ = build(source, reader(source))
    assert circuit is not None
    assert isinstance(statement, tree.Part)
    part, (value, *_) = circuit.parts["R1"], statement.items
    made = (
        part, part.features, part.features.quantities[0], circuit.points[-1], circuit.joins[-1], part.leads[0],
        part.place, statement.name, value, Lead("R1.1", "R1.1", "1", "1", 1, 1),
    )  # fmt: skip
    assert {type(one).__name__: sys.getsizeof(one) - type(one).__basicsize__ for one in made} == dict.fromkeys(
        ("Part", "Features", "Quantity", "Point", "Join", "Terminal", "Place", "Word", "Value", "Lead"), 0
    )


def _walked() -> Counter[type]:
    gc.collect()
    return Counter(type(one) for one in gc.get_objects())
