"""Two files that call the same chassis differently: what is no work at all."""

from collections.abc import Mapping
from random import Random

import pytest

from netcheck.bench.job import job_of
from netcheck.bench.job_done import carried_out, leads_to
from netcheck.core.circuit import Circuit
from netcheck.core.source import Source
from netcheck.model.build import build
from tests.paper import circuit, reader

IN_SERIES = ((1, "V1.3", "SP1.1"), (2, "SP1.1", "SP1.2"), (3, "SP1.2", "V1.8"))
TURNED_ROUND = {
    "from a pin to the chassis": (
        "resistor R1 220 ohm from V1.8 to chassis",
        "resistor R1 220 ohm from chassis to V1.8",
    ),
    "three in series": (
        "\n".join(f"resistor R{n} 1k from {one} to {other}" for n, one, other in IN_SERIES),
        "\n".join(f"resistor R{n} 1k from {other} to {one}" for n, one, other in IN_SERIES),
    ),
    # Nothing but a chain of them hangs on the nets between its ends, so that each is settled by the one before it.
    "five in a row, by the names of nets": (
        "net a: V1.3, R3.1\nnet b: R3.2, R1.1\nnet c: R1.2, R5.1\nnet d: R5.2, R2.1\nnet e: R2.2, R4.1\n"
        "net f: R4.2, V1.8\n" + "".join(f"resistor R{n} 1k\n" for n in range(1, 6)),
        "net a: V1.3, R3.2\nnet b: R3.1, R1.2\nnet c: R1.1, R5.2\nnet d: R5.1, R2.2\nnet e: R2.1, R4.2\n"
        "net f: R4.1, V1.8\n" + "".join(f"resistor R{n} 1k\n" for n in range(1, 6)),
    ),
    "the ends of a heater": ("at SP1.1: V1.2\nat SP1.2: V1.7", "at SP1.1: V1.7\nat SP1.2: V1.2"),
}


@pytest.mark.parametrize("case", TURNED_ROUND)
def test_what_only_the_two_files_call_the_other_way_round_is_no_work(case: str) -> None:
    head = "state {}\nstrip SP1 4 lugs\ntube V1 6V6GT\n{}\n"
    old, new = (circuit(head.format(*one)) for one in zip(("found", "rewired"), TURNED_ROUND[case], strict=True))
    work = job_of(old, new)
    assert work.acts == ()
    assert leads_to(old, new, work)


def by_nets(ends: Mapping[str, tuple[int, int]]) -> Circuit:
    """Resistors on nets that are known by name alone."""
    nets: dict[int, list[str]] = {}
    for name, (one, other) in ends.items():
        nets.setdefault(one, []).append(f"{name}.1")
        nets.setdefault(other, []).append(f"{name}.2")
    lines = (f"net n{net}: {', '.join(leads)}\n" for net, leads in nets.items())
    return circuit("".join((*(f"resistor {name} 1k\n" for name in ends), *lines)))


@pytest.mark.parametrize("seed", range(60))
def test_what_hangs_on_names_alone_is_led_there_one_way_or_the_other(seed: int) -> None:
    """Parts turned, and one moved: where the least work mistakes one name for another net, all is made anew."""
    lots = Random(seed)  # noqa: S311 - trials are repeated
    pairs = [tuple(lots.sample(range(5), 2)) for _ in range(lots.randint(2, 6))]
    ends = {f"R{n}": (one, other) for n, (one, other) in enumerate(pairs, 1)}
    turned = {name: (other, one) if lots.random() < 0.5 else (one, other) for name, (one, other) in ends.items()}
    turned["R1"] = (turned["R1"][0], lots.randrange(5))
    old, new = by_nets(ends), by_nets(turned)
    work, leads_there = carried_out(old, new)
    assert leads_there
    assert leads_to(old, new, work)


def test_of_two_traces_nobody_knows_whether_a_part_of_the_same_values_is_another() -> None:
    text = "state {}\nresistor R1 1k 1 W\nstrip SP1 2 lugs\nat SP1.1: R1.1\nat SP1.2: R1.2\n"
    old, new = (build(Source(f"{one}.netck", text.format(one)), reader({}))[0] for one in ("found", "rewired"))
    assert old is not None
    assert new is not None
    assert job_of(old, new).acts == ()
