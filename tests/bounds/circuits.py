"""Circuits that are large in one way: what the engines work out."""

from tests.bounds.case import Case, Files

__all__ = ["CIRCUITS"]

CHECK = ("check", "list.netck")
SUPPLY = ("supply", "list.netck")

LINE = """state drawn
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-yellow red-b 275-0-275 V 150 ohm
winding T1 heater green-a green-b 6.3 V
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net high-a: T1.red-a
net high-b: T1.red-b
net ground: chassis, T1.red-yellow
"""
RECTIFIED = """diode D1 1000 V 1 A
electrolytic C1 40 mfd 600 V
resistor R1 100k 2 W
net high-a: D1.anode
net B+: D1.cathode, C1+, R1.1
net ground: C1-, R1.2
"""


def _each(pattern: str, size: int) -> str:
    """The pattern once a number, ``#`` in its place and ``@`` for the one before."""
    return "".join(pattern.replace("#", str(n)).replace("@", str(n - 1)) for n in range(1, size + 1))


def _text(*pieces: str) -> Files:
    return {"list.netck": "".join(pieces)}


def _switches(size: int) -> Files:
    chain = _each("switch S#\nnet s@: S#.1\nnet s#: S#.2\n", size)
    return _text(
        LINE,
        chain,
        f"""net line-a: S1.1
resistor R9 10k
net s{size}: R9.1
net ground: R9.2
""",
    )


def _switches_beside(size: int) -> Files:
    return _text(
        LINE,
        _each(
            """switch S#
resistor R# 1 meg
net line-a: S#.1
net s#: S#.2, R#.1
net ground: R#.2
""",
            size,
        ),
    )


def _metal(size: int) -> Files:
    return _text(
        LINE,
        _each(
            """lug G# exposed insulated
resistor R# 470k
at G#: R#.1
net line-a: R#.2
""",
            size,
        ),
    )


def _metal_joined(size: int) -> Files:
    """The same, each joined to the next, so that what reaches one has come past all."""
    joined = _each("resistor R2# 10 meg\nnet m@: R2#.1\nnet m#: R2#.2, G#\n", size)
    return _text(LINE, _each("lug G# exposed insulated\n", size), joined, "net line-a: R21.1\n")


def _leak_ladder(size: int) -> Files:
    rungs = _each(
        """resistor R# 10k
capacitor C# .01 mfd 400 V
net k@: R#.1
net k#: R#.2, C#.1
net ground: C#.2
""",
        size,
    )
    return _text(LINE, rungs, "net line-a: R1.1\n")


def _stated(size: int) -> Files:
    rungs = _each(
        """resistor R1# 10k 1 W
resistor R2# 100k 1 W
net k@: R1#.1
net k#: R1#.2, R2#.1
net ground: R2#.2
volts k# 100 V
""",
        size,
    )
    return _text(LINE, RECTIFIED, rungs, "net B+: R11.1\n")


def _stated_apart(size: int) -> Files:
    feeds = _each(
        """resistor R1# 10k 1 W
resistor R2# 100k 1 W
net B+: R1#.1
net k#: R1#.2, R2#.1
net ground: R2#.2
volts k# 200 V
""",
        size,
    )
    return _text(LINE, RECTIFIED, feeds)


def _tubes(size: int) -> Files:
    stage = """tube V# 6J5
resistor R1# 100k 1 W
resistor R2# 2.2k 1 W
resistor R3# 470k 1 W
net B+: R1#.1
net p#: R1#.2, V#.plate
net c#: R2#.1, V#.cathode
net g#: R3#.1, V#.grid
net ground: R2#.2, R3#.2, V#.heater-1
net h: V#.heater-2, T1.green-a
"""
    return _text(LINE, RECTIFIED, _each(stage, size), "net ground: T1.green-b\n")


def _signal_diodes(size: int) -> Files:
    stage = """diode D1# germanium
resistor R1# 100k 1 W
net B+: R1#.1
net p#: R1#.2, D1#.anode
net ground: D1#.cathode
"""
    return _text(LINE, RECTIFIED, _each(stage, size))


def _rectifiers(size: int) -> Files:
    stage = """diode D1# 1000 V 1 A
electrolytic C1# 10 mfd 600 V
resistor R1# 100k 2 W
net high-a: D1#.anode
net B#: D1#.cathode, C1#+, R1#.1
net ground: C1#-, R1#.2
"""
    return _text(LINE, _each(stage, size))


def _parallel(size: int) -> Files:
    return _text(LINE, RECTIFIED, _each("diode D1# 1000 V 1 A\nnet high-a: D1#.anode\nnet B+: D1#.cathode\n", size))


def _multiplier(size: int) -> Files:
    """Cockcroft and Walton's ladder."""
    stage = """electrolytic C1# 10 mfd 900 V
electrolytic C2# 10 mfd 900 V
diode D1# 1000 V 1 A
diode D2# 1000 V 1 A
net a@: C1#-
net a#: C1#+, D1#.cathode, D2#.anode
net b@: D1#.anode, C2#-
net b#: D2#.cathode, C2#+
"""
    ends = f"""net a0: T1.red-a
net b0: chassis
resistor R1 1 meg 2 W
net b{size}: R1.1
net ground: R1.2
"""
    return _text(LINE.replace("net high-a: T1.red-a\n", ""), _each(stage, size), ends)


def _stages(part: str, size: int) -> Files:
    """As many filter stages in a row, each with its series part and a capacitor to the chassis."""
    name = part.split()[1]
    stage = f"""{part}
electrolytic C1# 10 mfd 600 V
net f@: {name}.1
net f#: {name}.2, C1#+
net ground: C1#-
"""
    return _text(LINE, RECTIFIED, _each(stage, size), f"net B+: {name.replace('#', '1')}.1\n")


def _filters(size: int) -> Files:
    return _stages("resistor R1# 100 ohm 1 W", size)


def _chokes(size: int) -> Files:
    return _stages("choke L1# 10 H 100 ohm", size)


def _negative(line: str) -> Files:
    return _text("state rewired\n", line, "\n")


def _negative_selenium(_: int) -> Files:
    leads = """net high-a: CR1.1
net high-b: CR1.2
net ground: CR1.-
electrolytic C1 40 mfd 450 V
net B+: CR1.+, C1+
net ground: C1-
"""
    return _text(LINE, "selenium CR1 -30 V bridge\n", leads)


def _negative_lamp(_: int) -> Files:
    return _text(
        LINE,
        """lamp LM1 -6.3 V
net h: T1.green-a, LM1.1
net ground: T1.green-b, LM1.2
""",
    )


CIRCUITS = tuple(
    Case(f"{name}, {words[0]}", size, words, made, share, refused="minus" in name)
    for name, size, share, made, commands in (
        ("switches in a row", 800, 4, _switches, (CHECK,)),
        ("switches side by side", 800, 4, _switches_beside, (CHECK,)),
        ("exposed metal", 800, 8, _metal, (CHECK,)),
        ("exposed metal in one network", 800, 0, _metal_joined, (CHECK,)),
        ("leakage ladder", 4_000, 16, _leak_ladder, (CHECK,)),
        ("stated readings", 80, 0, _stated, (CHECK, SUPPLY)),
        ("stated readings apart", 80, 0, _stated_apart, (CHECK, SUPPLY)),
        ("tubes on one supply", 400, 5, _tubes, (CHECK, SUPPLY)),
        ("signal diodes on one supply", 400, 2, _signal_diodes, (CHECK, SUPPLY)),
        ("separate rectifiers", 1_000, 10, _rectifiers, (CHECK, SUPPLY)),
        ("parallel rectifiers", 16, 1, _parallel, (CHECK, SUPPLY)),
        ("multiplier", 16, 1, _multiplier, (CHECK, SUPPLY)),
        ("filter stages", 512, 2, _filters, (CHECK, SUPPLY)),
        ("choke stages", 512, 2, _chokes, (CHECK, SUPPLY)),
        ("selenium of minus 30 V", 1, 0, _negative_selenium, (CHECK, SUPPLY)),
        ("lamp of minus 6.3 V", 1, 0, _negative_lamp, (CHECK, SUPPLY)),
    )
    for words in commands
)
