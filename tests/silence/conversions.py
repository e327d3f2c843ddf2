"""Work rightly done: what a restorer does to each set, job by job, with parts as he has them in the drawer.

A job is a few lines of a work log. Any of a set's jobs go together; a state is what some of them make.
"""

import re
from collections.abc import Mapping, Sequence
from random import Random

from tests.silence.amplifiers import SALLOW, TARN, WEIR
from tests.silence.bridges import bridge_for
from tests.silence.jobs import Job, all_of, changed, either

__all__ = ["JOBS", "accepted_value", "sound_state"]

HEAD = ("state rewired", 'start from "original.netck"')


def sound_state(name: str, rng: Random) -> tuple[str, ...]:
    """The lines of a rightly rewired state, with half of the set's jobs done or more."""
    jobs = JOBS[name]
    chosen = [job for job in jobs if rng.random() < rng.choice((0.5, 0.8, 1.0))] or [rng.choice(jobs)]
    return (*HEAD, *(line for job in chosen for line in job(rng)))


def accepted_value(lines: Sequence[str], original: str, rng: Random) -> tuple[str, ...]:
    """A signal resistor of another value than the drawing's, and the line that accepts it."""
    done = set(re.findall(r"\w+", " ".join(lines)))
    drawn = re.findall(r"^resistor\s+(\w+)\s+[\d.]+ meg\b", original, re.MULTILINE)
    megohms = [name for name in drawn if name not in done]
    if not megohms:
        return ()
    name = rng.choice(megohms)
    return f"change {name} 390k", f'accept value-changed {name} "what there was in the drawer"'


_HARROW = (
    changed("""
C30A  20 mfd|22 mfd  450 V|500 V
C30B  20 mfd|22 mfd  450 V|500 V
C30C  25 mfd|27 mfd|22 mfd  50 V|63 V
"""),
    all_of("""
remove C31, C32
strip SP1 5 lugs foot 3
electrolytic C61 10 mfd  450 V|500 V  plus SP1.4 minus SP1.3 replaces C31
electrolytic C62  8.2 mfd|10 mfd  450 V|500 V  plus SP1.5 minus SP1.3 replaces C32
wire SP1.4 to R15.2 red
wire SP1.5 to R16.2 red
"""),
    all_of("""
fuse F1  1 A|1.5 A  slow inserted "no fuse in the original"
lift T1.black-a
wire F1.1 to S1.2 black
wire F1.2 to T1.black-a black
"""),
    all_of("""
remove C22
capacitor C72  .01 mfd|.0047 mfd  250 V  Y2|Y1  from T1.black-b to AG1.2 replaces C22
"""),
    changed("""
R15  1.5k  3 W|5 W
R40 200 ohm  5 W|10 W
R17 100k 1/2 W 5%
R2 10k 5 W
"""),
    all_of("""
resistor R92  220k|270k  2 W from C30.A to C30.can added "empties the filter after switch-off"
meant B+1: R92.1
meant minus: R92.2
"""),
    either(
        all_of("""
remove V7
strip SP9 5 lugs foot 3
lift T1.yellow-a, T1.yellow-b intended "no rectifier filament any more"
at SP9.1: T1.red-a
at SP9.5: T1.red-b
diode D11  BY133|1300 V 1 A|1200 V 3 A  anode SP9.1 cathode SP9.2 replaces V7.plate-2
diode D12  BY133|1300 V 1 A|1200 V 3 A  anode SP9.5 cathode SP9.2 replaces V7.plate-1
resistor R91  220 ohm|270 ohm  10 W|20 W  from SP9.2 to SP9.4 inserted "silicon drops less"
wire SP9.4 to C30.A red
"""),
        bridge_for(
            "V7", "SP9", "R91  220 ohm|270 ohm  10 W|20 W", ends=("C30.A", "C30.can"), nets=("high-a", "B+1", "minus")
        ),
    ),
)

_SKERRY = (
    all_of("""
remove SE1
strip SP6 6 lugs foot 4
resistor R50  33 ohm|27 ohm|39 ohm  5 W|10 W  from SP1.4 to SP6.5 inserted "silicon drops less"
diode D1  1N4007|1000 V 1 A|UF4007|1N5408|1N4005  anode SP6.5 cathode SP6.6 replaces SE1
wire SP6.6 to SP2.1 red
"""),
    all_of("""
strip SP8 4 lugs foot 3
lift P1.1
at SP8.1: P1.1
fuse F1  1 A slow|3/4 A slow  from SP8.1 to SP8.2 inserted "no fuse in the original"
wire SP8.2 to SP1.1 gray
"""),
    changed("""
C30  .047 mfd  275 V  X2
C31  .01 mfd|.0047 mfd  400 V  Y1|Y2
C19 1000 mmfd 400 V Y1
"""),
    all_of("""
remove C32A, C32B, C32C
electrolytic C51  47 mfd|56 mfd  250 V|350 V  plus C32.A minus C32.can replaces C32A
electrolytic C52  33 mfd|27 mfd  250 V|200 V  plus C32.B minus SP2.5 replaces C32B
electrolytic C53  22 mfd|20 mfd  50 V|35 V  plus SP3.2 minus SP3.4 replaces C32C
"""),
    changed("""
C33  10 mfd  200 V|250 V
R15 150 ohm  1 W|2 W  5%
R21  82 ohm  5 W|10 W
R32 470 ohm  2 W|3 W
R31  22 ohm  5 W|7 W
"""),
    all_of("""
resistor R93  150k|220k  1 W|2 W  from C32.A to C32.can added "empties the filter after switch-off"
meant B+1: R93.1
meant B-: R93.2
"""),
)

_MARRAM = (
    all_of("""
remove P1 "brittle"
cord P2 polarized added "one blade is wide"
meant line-a: P2.hot
meant ground: P2.neutral
at F1.1: P2.hot
wire P2.neutral to chassis
"""),
    all_of("""
strip SP7 5 lugs foot 3
remove SE1, SE2
move R21.2 to SP7.1
resistor R80  15 ohm|12 ohm  10 W from SP7.1 to C40.can inserted "silicon drops less"
diode D1  1N5408|1000 V 3 A|1000 V 1 A  anode SP7.3 cathode SP7.4 replaces SE1
diode D2  1N5408|1000 V 3 A|1000 V 1 A  anode SP7.4 cathode SP7.5 replaces SE2
wire SP7.4 to SP1.4 red
wire SP7.5 to SP2.1 red
"""),
    changed("""
C17 .047 mfd 275 V X2
C41A  100 mfd  450 V|500 V
C41B  82 mfd  450 V|500 V
C41C  47 mfd  50 V|63 V
"""),
    all_of("""
strip SP8 4 lugs foot 2
remove C42A, C42B, C42C
electrolytic C71  22 mfd  450 V|500 V  plus C42.A minus SP8.2 replaces C42A
electrolytic C72  10 mfd  450 V  plus C42.B minus SP3.1 replaces C42B
electrolytic C73  100 mfd  50 V|63 V  plus C42.C minus C42.can replaces C42C
"""),
    all_of("""
resistor R81  220k|150k  1 W from C40.A to C40.can added "empties it after switch-off"
meant dbl-mid: R81.1
meant dbl-in: R81.2
"""),
    changed("""
R20 270 ohm 2 W 5%
R22 4.7k  2 W|3 W
R23 15k  1 W|2 W
R24 100k  2 W
R13 4.7k 2 W
"""),
)

JOBS: Mapping[str, tuple[Job, ...]] = {
    "harrow-point": _HARROW,
    "skerry": _SKERRY,
    "marram": _MARRAM,
    "sallow-street": SALLOW,
    "tarn": TARN,
    "weir": WEIR,
}
