"""A moulded network: what is on its pins can be moved, the leads inside it can't, and no order says so."""

import json

import pytest

from netcheck import api
from netcheck.core.source import Source
from netcheck.reports.json_document import render
from netcheck.reports.renderer import Style

SET = """
network PC1 3 pins
resistor PC1a 10k from PC1.1 to PC1.2
capacitor PC1b .005 mfd from PC1.2 to PC1.3
resistor R1 47k
resistor R2 100k
resistor R3 220k
strip SP1 3 lugs insulated
net in: R1.1, SP1.1, {in_}
net out: R2.1, SP1.2, {out}
net end: R3.1, SP1.3, {end}
net ground: chassis, R1.2, R2.2, R3.2
"""
RIGHT = SET.format(in_="PC1.1", out="PC1.2", end="PC1.3")


def orders(new: str) -> list[tuple[str, list[str]]]:
    drawn = Source("old.netck", RIGHT)
    report = api.compare(drawn, Source("new.netck", f"state rewired\n{new}"), lambda _asking, _written: drawn)
    found = json.loads(render(report, Style()))["findings"]
    ways = [[line for way in (one["mend"], *one["alternatives"]) for line in way] for one in found]
    return [(one["grade"], lines) for one, lines in zip(found, ways, strict=True)]


@pytest.mark.parametrize(
    "new",
    [
        SET.format(in_="R3.1", out="PC1.1", end="PC1.3").replace("R3.1, SP1.3", "SP1.3") + "net out: PC1.2\n",
        SET.format(in_="PC1.2", out="PC1.1", end="PC1.3"),
        RIGHT.replace("R1.1, SP1.1, PC1.1", "R1.1, SP1.1").replace("R3.1, SP1.3", "R3.1, SP1.3, PC1.1"),
        RIGHT.replace("R2.1, SP1.2, PC1.2", "R2.1, SP1.2").replace("R3.1, SP1.3", "R3.1, SP1.3, PC1.2"),
        RIGHT.replace("R1.1, SP1.1, PC1.1", "R1.1, SP1.1") + "spare PC1.1\n",
    ],
    ids=["pin and lead", "two pins exchanged", "pin 1 astray", "pin 2 astray", "pin 1 not joined"],
)
def test_no_order_opens_the_moulding(new: str) -> None:
    found = orders(new)
    assert any(grade == "STOP" for grade, _ in found)
    assert not any("PC1a" in line or "PC1b" in line for _, lines in found for line in lines)


@pytest.mark.parametrize("pin", ["1", "2", "3"])
def test_a_pin_on_the_wrong_net_is_put_right_at_the_pin(pin: str) -> None:
    homes = {"1": ("SP1.1", "SP1.2"), "2": ("SP1.2", "SP1.3"), "3": ("SP1.3", "SP1.1")}
    home, wrong = homes[pin]
    new = RIGHT.replace(f"{home}, PC1.{pin}", home).replace(f"{wrong}, PC1", f"{wrong}, PC1.{pin}, PC1")
    found = [lines for grade, lines in orders(new) if grade == "STOP"]
    assert len(found) == 1
    assert any(f"PC1.{pin}" in line for line in found[0])


def test_a_part_with_one_lead_on_a_pin_is_not_inside() -> None:
    outside = "resistor R4 1k from PC1.1 to SP1.3\n"
    drawn = Source("old.netck", RIGHT + outside)
    new = Source("new.netck", f"state rewired\n{RIGHT}resistor R4 1k from PC1.2 to SP1.3\n")
    report = api.compare(drawn, new, lambda _asking, _written: drawn)
    mends = [line for one in json.loads(render(report, Style()))["findings"] for line in one["mend"]]
    assert [line.partition(" to ")[0] for line in mends] == ["move R4.1"]
