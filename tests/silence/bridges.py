"""A bridge of four diodes on half of a winding, in place of a tube of two plates on both halves."""

from tests.silence.jobs import Job, all_of

__all__ = ["bridge_for"]


def bridge_for(tube: str, strip: str, resistor: str, *, ends: tuple[str, str], nets: tuple[str, str, str]) -> Job:
    """The lines for one set: ``ends`` are where its plus and its minus go.

    ``nets`` are those of the drawing that one plate, the plus and the minus are on. The other half is not used: what
    would be the whole winding gives twice the volts.
    """
    plate, plus, minus = nets
    into, low = ends
    diode = "diode D{n}  BY133|1300 V 1 A|1200 V 3 A  anode {strip}.{a} cathode {strip}.{k} added"
    four = "\n".join(
        f'{diode.format(n=40 + n, strip=strip, a=a, k=k)} "bridge"'
        for n, (a, k) in enumerate(((1, 4), (2, 4), (5, 1), (5, 2)), 1)
    )
    return all_of(f"""
remove {tube} "a bridge now"
strip {strip} 6 lugs foot 3
lift T1.yellow-a, T1.yellow-b intended "no rectifier filament any more"
lift T1.red-yellow intended "to the bridge"
lift T1.red-b intended "this half is not used"
at {strip}.1: T1.red-a
at {strip}.2: T1.red-yellow
{four}
meant {plate}: D41.anode, D43.cathode
meant half: T1.red-yellow, D42.anode, D44.cathode
meant {plus}: D41.cathode, D42.cathode
meant {minus}: D43.anode, D44.anode
resistor {resistor}  from {strip}.4 to {strip}.6 inserted "silicon drops less"
wire {strip}.6 to {into} red
wire {strip}.5 to {low} black
""")
