"""Work rightly done: what a restorer does to each set, job by job, with parts as he has them in the drawer.

A job is a few lines of a work log. Any of a set's jobs go together; a state is what some of them make.
"""

from collections.abc import Callable, Mapping, Sequence
from random import Random

__all__ = ["JOBS", "sound_state"]

Job = Callable[[Random], Sequence[str]]
HEAD = ("state rewired", 'start from "original.netck"')


def sound_state(name: str, rng: Random) -> tuple[str, ...]:
    """The lines of a rightly rewired state, with half of the set's jobs done or more."""
    jobs = JOBS[name]
    chosen = [job for job in jobs if rng.random() < rng.choice((0.5, 0.8, 1.0))] or [rng.choice(jobs)]
    return (*HEAD, *(line for job in chosen for line in job(rng)))


def _change(text: str) -> Job:
    """Changes in place, some of them; each line may offer values with a bar between."""
    lines = text.strip().splitlines()

    def job(rng: Random) -> Sequence[str]:
        return [f"change {_picked(line, rng)}" for line in lines if rng.random() < 0.8]

    return job


def _lines(text: str) -> Job:
    """All of the lines, with one of the values that a bar separates."""
    lines = text.strip().splitlines()
    return lambda rng: [_picked(line, rng) for line in lines]


def _picked(line: str, rng: Random) -> str:
    words = line.split("  ")
    return " ".join(rng.choice(word.split("|")).strip() for word in words if word.strip())


_HARROW = (
    _change("""
C30A  20 mfd|22 mfd  450 V|500 V
C30B  20 mfd|22 mfd  450 V|500 V
C30C  25 mfd|27 mfd|22 mfd  50 V|63 V
"""),
    _lines("""
remove C31, C32
strip SP1 5 lugs foot 3
electrolytic C61 10 mfd  450 V|500 V  plus SP1.4 minus SP1.3 replaces C31
electrolytic C62  8.2 mfd|10 mfd  450 V|500 V  plus SP1.5 minus SP1.3 replaces C32
wire SP1.4 to R15.2 red
wire SP1.5 to R16.2 red
"""),
    _lines("""
fuse F1  1 A|1.5 A  slow inserted "no fuse in the original"
lift T1.black-a
wire F1.1 to S1.2 black
wire F1.2 to T1.black-a black
"""),
    _lines("""
remove C22
capacitor C72  .01 mfd|.0047 mfd  250 V  Y2|Y1  from T1.black-b to AG1.2 replaces C22
"""),
    _change("""
R15  1.5k  3 W|5 W
R40 200 ohm  5 W|10 W
R17 100k 1/2 W 5%
R2 10k 5 W
"""),
    _lines("""
resistor R92  220k|270k  2 W from C30.A to C30.can added "empties the filter after switch-off"
meant B+1: R92.1
meant minus: R92.2
"""),
    _lines("""
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
)

_SKERRY = (
    _lines("""
remove SE1
strip SP6 6 lugs foot 4
resistor R50  33 ohm|27 ohm|39 ohm  5 W|10 W  from SP1.4 to SP6.5 inserted "silicon drops less"
diode D1  1N4007|1000 V 1 A|UF4007|1N5408|1N4005  anode SP6.5 cathode SP6.6 replaces SE1
wire SP6.6 to SP2.1 red
"""),
    _lines("""
strip SP8 4 lugs foot 3
lift P1.1
at SP8.1: P1.1
fuse F1  1 A slow|3/4 A slow  from SP8.1 to SP8.2 inserted "no fuse in the original"
wire SP8.2 to SP1.1 gray
"""),
    _change("""
C30  .047 mfd  275 V  X2
C31  .01 mfd|.0047 mfd  400 V  Y1|Y2
C19 1000 mmfd 400 V Y1
"""),
    _lines("""
remove C32A, C32B, C32C
electrolytic C51  47 mfd|56 mfd  250 V|350 V  plus C32.A minus C32.can replaces C32A
electrolytic C52  33 mfd|27 mfd  250 V|200 V  plus C32.B minus SP2.5 replaces C32B
electrolytic C53  22 mfd|20 mfd  50 V|35 V  plus SP3.2 minus SP3.4 replaces C32C
"""),
    _change("""
C33  10 mfd  200 V|250 V
R15 150 ohm  1 W|2 W  5%
R21  82 ohm  5 W|10 W
R32 470 ohm  2 W|3 W
R31  22 ohm  5 W|7 W
"""),
    _lines("""
resistor R93  150k|220k  1 W|2 W  from C32.A to C32.can added "empties the filter after switch-off"
meant B+1: R93.1
meant B-: R93.2
"""),
)

_MARRAM = (
    _lines("""
remove P1 "brittle"
cord P2 polarized added "one blade is wide"
meant line-a: P2.hot
meant ground: P2.neutral
at F1.1: P2.hot
wire P2.neutral to chassis
"""),
    _lines("""
strip SP7 5 lugs foot 3
remove SE1, SE2
move R21.2 to SP7.1
resistor R80  15 ohm|12 ohm  10 W from SP7.1 to C40.can inserted "silicon drops less"
diode D1  1N5408|1000 V 3 A|1000 V 1 A  anode SP7.3 cathode SP7.4 replaces SE1
diode D2  1N5408|1000 V 3 A|1000 V 1 A  anode SP7.4 cathode SP7.5 replaces SE2
wire SP7.4 to SP1.4 red
wire SP7.5 to SP2.1 red
"""),
    _change("""
C17 .047 mfd 275 V X2
C41A  100 mfd  450 V|500 V
C41B  82 mfd  450 V|500 V
C41C  47 mfd  50 V|63 V
"""),
    _lines("""
strip SP8 4 lugs foot 2
remove C42A, C42B, C42C
electrolytic C71  22 mfd  450 V|500 V  plus C42.A minus SP8.2 replaces C42A
electrolytic C72  10 mfd  450 V  plus C42.B minus SP3.1 replaces C42B
electrolytic C73  100 mfd  50 V|63 V  plus C42.C minus C42.can replaces C42C
"""),
    _lines("""
resistor R81  220k|150k  1 W from C40.A to C40.can added "empties it after switch-off"
meant dbl-mid: R81.1
meant dbl-in: R81.2
"""),
    _change("""
R20 270 ohm 2 W 5%
R22 4.7k  2 W|3 W
R23 15k  1 W|2 W
R24 100k  2 W
R13 4.7k 2 W
"""),
)

_SALLOW = (
    _lines("""
remove CR1, C35, C36
strip SP3 4 lugs foot 1
lift T1.brown-a, T1.brown-b
at SP3.1: T1.brown-a
at SP3.4: T1.brown-b
diode D5  1N4007|1N4004|1000 V 1 A  anode SP3.3 cathode SP3.4 replaces CR1
electrolytic C95 47 mfd  100 V|160 V  plus SP3.1 minus SP3.3 replaces C35
electrolytic C96 47 mfd  100 V|160 V  plus SP3.1 minus SP3.2 replaces C36
wire SP3.3 to R31.1 violet
wire SP3.2 to R31.2 violet
"""),
    _change("""
C30A  40 mfd|47 mfd  450 V|500 V
C30B  22 mfd|20 mfd  450 V|500 V
C30C  22 mfd|20 mfd  450 V|500 V
"""),
    _lines("""
remove C31, C32
strip SP6 5 lugs foot 3
electrolytic C91 22 mfd  450 V|500 V  plus SP6.1 minus SP6.3 replaces C31
electrolytic C92 12 mfd  450 V|500 V  plus SP6.5 minus SP6.3 replaces C32
move R8.1 to SP6.5
wire SP6.1 to R29.2 red
wire SP6.5 to R30.2 red
"""),
    _lines("""
remove V6
strip SP1 5 lugs foot 3
lift T1.yellow-a, T1.yellow-b intended "no rectifier filament any more"
at SP1.1: T1.red-a
at SP1.5: T1.red-b
diode D1  BY133|1300 V 1 A|1200 V 3 A  anode SP1.1 cathode SP1.2 replaces V6.plate-2
diode D2  BY133|1300 V 1 A|1200 V 3 A  anode SP1.5 cathode SP1.2 replaces V6.plate-1
resistor R95  100 ohm|120 ohm  10 W|20 W  from SP1.2 to SP1.4 inserted "silicon drops less"
wire SP1.4 to C30.A red
"""),
    _change("""
R28 4.7k  10 W
R34 220k  2 W
R24 100 ohm  1 W|2 W
R29 3.3k  1 W|2 W
"""),
    _lines("""
lug G1 grounded
remove C1, C4
electrolytic C71 27 mfd  50 V|35 V  plus V1.5 minus G1 replaces C1
electrolytic C74 22 mfd  50 V|35 V  plus V2.6 minus G1 replaces C4
"""),
)

_TARN = (
    _lines("""
remove V3
strip SP2 5 lugs foot 3
resistor R51  68 ohm|56 ohm|82 ohm  5 W|10 W  from SP1.2 to SP2.4 inserted "silicon drops less"
diode D1  1N4007|1000 V 1 A|1N5408  anode SP2.4 cathode SP2.1 replaces V3
wire SP2.1 to SP1.4 red
resistor R50  240 ohm|220 ohm  10 W|20 W  from R21.2 to V2.2 replaces V3.heater
"""),
    _change("""
C1  40 mfd|47 mfd  200 V|250 V
C2  22 mfd|20 mfd  200 V|250 V
C3  22 mfd  35 V|50 V
C4  .01 mfd|.0047 mfd  250 V  Y2
C5  .01 mfd  275 V  X2
C6  .022 mfd 630 V film
"""),
    _lines("""
strip SP5 3 lugs foot 2
lift P1.1
at SP5.1: P1.1
fuse F1  1 A slow|3/4 A slow  from SP5.1 to SP5.3 inserted "no fuse in the original"
wire SP5.3 to SP1.1 gray
"""),
    _lines("""
resistor R60  220k|150k  1 W from SP1.4 to SP1.5 added "empties the filter after switch-off"
meant B+1: R60.1
meant B-: R60.2
"""),
    _change("""
R32 1k  5 W
R21 120 ohm  10 W|15 W
R4 150 ohm  1 W|2 W
R31 22 ohm  5 W|10 W
"""),
)

_WEIR = (
    _lines("""
remove V3
strip SP1 5 lugs foot 3
lift T1.yellow-a, T1.yellow-b intended "no rectifier filament any more"
at SP1.1: T1.red-a
at SP1.5: T1.red-b
diode D1  BY133|1200 V 1 A|1300 V 1 A  anode SP1.1 cathode SP1.2 replaces V3.plate-2
diode D2  BY133|1200 V 1 A|1300 V 1 A  anode SP1.5 cathode SP1.2 replaces V3.plate-1
resistor R51  270 ohm|330 ohm  10 W from SP1.2 to SP1.4 inserted "silicon drops less"
wire SP1.4 to C1+ red
"""),
    _change("""
C1  10 mfd  450 V|500 V
C2  22 mfd|20 mfd  450 V|500 V
C3  22 mfd  50 V|35 V
C4  10 mfd  450 V|500 V
C6  .022 mfd 630 V film
"""),
    _lines("""
resistor R60  220k|330k  2 W from C2+ to C2- added "empties the filter after switch-off"
meant B+2: R60.1
meant ground: R60.2
"""),
    _change("""
R4 250 ohm  2 W|3 W
R5 47k 1 W
"""),
    _lines("""
change F1 1 A slow
"""),
)

JOBS: Mapping[str, tuple[Job, ...]] = {
    "harrow-point": _HARROW,
    "skerry": _SKERRY,
    "marram": _MARRAM,
    "sallow-street": _SALLOW,
    "tarn": _TARN,
    "weir": _WEIR,
}
