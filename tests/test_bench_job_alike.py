"""Two files that call the same chassis differently: what is no work at all."""

import pytest

from netcheck.bench.job import job_of
from netcheck.bench.job_done import leads_to
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
    "the ends of a heater": ("at SP1.1: V1.2\nat SP1.2: V1.7", "at SP1.1: V1.7\nat SP1.2: V1.2"),
}


@pytest.mark.parametrize("case", TURNED_ROUND)
def test_what_only_the_two_files_call_the_other_way_round_is_no_work(case: str) -> None:
    head = "state {}\nstrip SP1 4 lugs\ntube V1 6V6GT\n{}\n"
    old, new = (circuit(head.format(*one)) for one in zip(("found", "rewired"), TURNED_ROUND[case], strict=True))
    work = job_of(old, new)
    assert work.acts == ()
    assert leads_to(old, new, work)


def test_of_two_traces_nobody_knows_whether_a_part_of_the_same_values_is_another() -> None:
    text = "state {}\nresistor R1 1k 1 W\nstrip SP1 2 lugs\nat SP1.1: R1.1\nat SP1.2: R1.2\n"
    old, new = (build(Source(f"{one}.netck", text.format(one)), reader({}))[0] for one in ("found", "rewired"))
    assert old is not None
    assert new is not None
    assert job_of(old, new).acts == ()
