"""Without stated loads a proof that leans on a rectifier is borne out only by a cold peak far above what it drops."""

import pytest

from netcheck.electrical.network.elements import Capacitor, Network, Rectifier, Resistor, VoltageSource
from netcheck.electrical.network.laws import silicon
from netcheck.electrical.proof.figures import Figures
from netcheck.electrical.proof.held import held
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.proof.order import Proof

RIGHT = Verdict("C1", Surety.PROVEN, WayRound.RIGHT, "D1 holds it up", "hot or cold")


@pytest.mark.parametrize(("peak", "borne_out"), [(9.0, False), (9.9, False), (10.1, True), (160.0, True)])
def test_a_cold_peak_of_ten_times_the_drop_bears_it_out(peak: float, *, borne_out: bool) -> None:
    """The capacitor fills to the peak of the line less the rectifier, 0.7 V; the proof has 1 V of margin."""
    line = VoltageSource("P1", 1, 0, peak + 0.7, 60.0, 1.0)
    rest = (Rectifier("D1", 1, 2, silicon()), Capacitor("C1", 2, 0, 40e-6, polarised=True), Resistor("R1", 2, 0, 1e6))
    found = held(Network(3, (line, *rest)), Proof(2, 0, margin=1.0, clamped=True), RIGHT, Figures())
    assert (found is not None) is borne_out
    assert found is None or found.surety is Surety.COMPUTED
