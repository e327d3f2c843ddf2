"""What is computed for a line of the supply is far from what the service chart says.

The chart was measured on a set that worked. Where a line's computed volts are over 30 % off (a fifth is the chart's own
tolerance, a tenth that of the figures), a value in the file is wrong, or a part is, or the set is not the one that was
measured. Only lines that a filter capacitor holds are looked at: the volts of a plate depend on one tube's current.

Wrong:

    mains 117 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V 10 ohm
    winding T1 high red-a red-b 117 V 20 ohm
    diode D1 1N4007
    resistor R1 33 ohm 10 W
    electrolytic C1 47 mfd 250 V
    electrolytic C2 47 mfd 250 V
    resistor R2 220 ohm 10 W
    resistor R3 2.2k 20 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, R1.1
    net rect: R1.2, D1.anode
    net B+1: D1.cathode, C1+, R2.1
    net B+2: R2.2, C2+, R3.1
    net ground: chassis, T1.red-b, C1-, C2-, R3.2
    volts B+2 90 V

Right:

    start from "wrong.netck"
    change R2 1k 10 W

Source: 20 % for a service chart, common practice; the volts are computed for the running set.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.wording import listed
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.off_chart import Comparison, OffChart

MOST = 4  # places that are shown


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not graph.circuit.charts or not is_driven(graph):
        return
    from netcheck.electrical.off_chart import off_chart
    from netcheck.electrical.polarities import polarities
    from netcheck.electrical.shorts import shorts

    # Readings that no currents at all can give are told as that; a shorted winding has no volts.
    untold = not graph.once(shorts) and polarities(graph).doubt is None
    found = off_chart(graph) if untold else None
    if found is None:
        return
    worst = found.far[0]
    names = tuple(dict.fromkeys(graph.net_names.get(graph.circuit.net_of(one.chart.point), "") for one in found.far))
    yield Finding(
        fitting(
            f"{worst.chart.point}: {_volts(worst.computed)} computed, {_volts(worst.said)} on the chart",
            f"{_volts(worst.computed)} computed where the chart has {_volts(worst.said)}",
        ),
        tuple(Label(one.chart.place, _beside(one) if at else "") for at, one in enumerate(found.far[:MOST])),
        do=_do(found),
        why=_why(found),
        touched=Touched((), (), names),
    )


def _beside(one: "Comparison") -> str:
    return f"{_volts(one.computed)} computed"


def _do(found: "OffChart") -> str:
    if found.near:
        feeds = " and ".join(found.feeds)
        verb = "feed" if len(found.feeds) > 1 else "feeds"
        return f"look at {feeds}, which {verb} it: ohms, and what hangs behind" if feeds else "look at what feeds it"
    high = found.far[0].computed > found.far[0].said
    return (
        "look for a resistor missing behind or before the rectifier, winding volts typed wrong, a load not connected"
        if high
        else "look for a rectifier or winding not connected, winding volts typed wrong, something that draws too much"
    )


def _why(found: "OffChart") -> str:
    agree = listed([one.chart.point for one in found.near])
    near = f"; {agree} agree{'s' if len(found.near) == 1 else ''}" if agree else "; no line agrees"
    usual = "; the tubes' currents are the usual ones: say `draws`, if you know them" if found.assumed else ""
    return f"calculated (running){near}{usual}"


def _volts(volts: float) -> str:
    return f"{volts:.0f} V" if abs(volts) >= 10 else f"{volts + 0.0:.1f} V".replace("-0.0", "0.0")


RULE = Rule("volts-off-chart", Grade.LOOK, _check, __doc__, About.DESIGN)
