"""For every polarised capacitor: is it the right way round, how surely is that known, and for what reason?"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from netcheck.electrical.network.elements import Capacitor, Load, Network
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.proof.polarity import Judge

if TYPE_CHECKING:
    from netcheck.electrical.proof.figures import Figures

__all__ = ["Surety", "Verdict", "WayRound", "verdicts"]


def verdicts(
    network: Network, readings: Sequence[tuple[int, int, float, float]] = (), figures: "Figures | None" = None
) -> tuple[Verdict, ...]:
    """The verdicts on all polarised capacitors, in the network's order.

    Readings are (plus, minus, volts, tolerance) of the running set, the tolerance as 0.2 of the volts. Without any,
    stated load currents are all that figures can be computed from. ``figures`` are running states that are known.
    """
    judge = Judge(network, figures)
    found = tuple(judge.proved(each) for each in network.elements if isinstance(each, Capacitor) and each.polarised)
    stated = any(isinstance(element, Load) for element in network.elements)
    # What is backwards is told with its volts where there are any: less than a volt does no harm.
    wanted = any(verdict.surety is not Surety.PROVEN or verdict.way is WayRound.REVERSED for verdict in found)
    if not readings and not (stated and wanted):
        return found
    from netcheck.electrical.proof.bounds import StatedReading
    from netcheck.electrical.proof.chart import judged_by

    return judged_by(network, [StatedReading(*reading) for reading in readings], judge.figures, found)
