"""Circuits that nobody has seen: plausible sets drawn by lot.

A supply with a rectifier tube or a selenium stack, a can or loose electrolytics, a choke or resistors between; one to
four stages with sockets of seven, eight or nine pins; lugs of strips here and there. Values and ratings are such as
sets have.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from random import Random

from tests.campaign.sockets import SOCKETS

__all__ = ["Sheet", "drawn"]

_OHMS = ("47k", "68k", "100k", "150k", "220k", "270k", "470k")
_LEAKS = ("470k", "1 meg", "2.2 meg", "10 meg")
_LOAD = "3 W"  # what a plate load of the least ohms sheds where the tube draws all it can
_COUPLING = (".005 mfd", ".01 mfd", ".02 mfd", ".05 mfd", ".1 mfd")


@dataclass(slots=True)
class Sheet:
    """A drawing while it is made: declarations, and the points of each net by name."""

    rng: Random
    lines: list[str] = field(default_factory=list)
    nets: dict[str, list[str]] = field(default_factory=dict)
    count: dict[str, int] = field(default_factory=dict)
    minus: str = "ground"
    """The net of the returns; where it is not the chassis, the set is on the line."""
    rated: int = 600
    """What coupling capacitors stand: the B+ while the tubes are cold and draw nothing."""
    paper: dict[str, str] = field(default_factory=dict)
    sections: list[tuple[str, str, str]] = field(default_factory=list)
    """The can, the letter and the values of each section."""

    def name(self, letter: str) -> str:
        """The next name with a letter; numbers begin anywhere and leave gaps."""
        last = self.count.get(letter) or self.rng.randint(0, 30)
        self.count[letter] = last + self.rng.randint(1, 3)
        return f"{letter}{self.count[letter]}"

    def join(self, net: str, *points: str) -> None:
        self.nets.setdefault(net, []).extend(points)

    def two(self, kind: str, letter: str, words: str, one: str, other: str) -> str:
        """A part with two leads between two nets, either way round."""
        name = self.name(letter)
        self.lines.append(f"{kind} {name} {words}".rstrip())
        tails = ["+", "-"] if kind in ("electrolytic", "selenium") else [".1", ".2"]
        if tails[0] == ".1" and self.rng.random() < 0.5:
            tails.reverse()
        self.join(one, name + tails[0])
        self.join(other, name + tails[1])
        if "paper" in words:
            self.paper[name] = words
        return name

    def resistor(self, value: str, one: str, other: str, watts: str = "1/2 W") -> str:
        return self.two("resistor", "R", f"{value} {watts}", one, other)

    def capacitor(self, value: str, one: str, other: str, volts: int = 0) -> str:
        return self.two("capacitor", "C", f"{value} {volts or self.rated} V paper", one, other)

    def tube(self, type_: str, **at: str) -> str:
        """A tube with its electrodes on nets; ``_`` stands for the dash in an electrode's name."""
        name = self.name("V")
        self.lines.append(f"tube {name} {type_}")
        for pin, electrode in SOCKETS[type_].items():
            net = at.get(electrode.replace("-", "_"), "ground" if electrode == "shell" else "")
            if net:
                self.join(net, f"{name}.{pin}")
        return name


# --- supplies


def _filter(sheet: Sheet, nets: tuple[str, ...], minus: str, volts: int) -> None:
    """Filter capacitors at each net: the sections of one can, or loose ones."""
    sizes = [sheet.rng.choice(("10 mfd", "20 mfd", "40 mfd")) for _ in nets]
    if sheet.rng.random() < 0.7:
        can = sheet.name("C")
        floats = minus != "ground" or sheet.minus != "ground" or sheet.rng.random() < 0.3
        mounting = "insulated" if floats else "grounded"
        sheet.lines.append(f"can {can} {mounting}")
        for letter, mark, size, net in zip("ABC", ("half-moon", "square", "triangle"), sizes, nets, strict=False):
            sheet.lines.append(f"section {can}{letter} {size} {volts} V {mark}")
            sheet.join(net, f"{can}{letter}+")
            sheet.sections.append((can, letter, f"{size} {volts} V"))
        if mounting == "insulated":
            sheet.join(minus, f"{can}-")
    else:
        for size, net in zip(sizes, nets, strict=True):
            sheet.two("electrolytic", "C", f"{size} {volts} V", net, minus)
    for one, other in pairwise(nets):
        if one == nets[0] and sheet.rng.random() < 0.4:
            sheet.two("choke", "L", "8 H 250 ohm", one, other)
        else:
            sheet.resistor(sheet.rng.choice(("1k", "2.2k", "4.7k", "10k")), one, other, "2 W")


def _with_transformer(sheet: Sheet) -> str:
    name = sheet.name("T")
    sheet.lines += [
        f'transformer {name} "power" grounded',
        f"winding {name} primary black-a black-b 117 V 6 ohm",
        f"winding {name} high red-a red-yellow red-b 300-0-300 V 160 ohm",
        f"winding {name} filament yellow-a yellow-b 5 V",
        f"winding {name} heater green-a green-b 6.3 V",
    ]
    cord = sheet.name("P")
    sheet.lines.append(f"cord {cord}")
    sheet.join("line-b", f"{cord}.2", f"{name}.black-b")
    sheet.two("switch", "S", "", "line-a", "line-c")
    sheet.join("line-a", f"{cord}.1")
    sheet.join("line-c", f"{name}.black-a")
    plates = {"plate_1": "high-a", "plate_2": "high-b"}
    sheet.tube(sheet.rng.choice(("5Y3GT", "5U4G")), heater_1="filament", heater_2="B+1", **plates)
    sheet.join("filament", f"{name}.yellow-a")
    sheet.join("B+1", f"{name}.yellow-b")
    sheet.join("high-a", f"{name}.red-a")
    sheet.join("high-b", f"{name}.red-b")
    sheet.join("heaters", f"{name}.green-a")
    sheet.join("ground", f"{name}.green-b")
    minus = "ground"
    if sheet.rng.random() < 0.3:
        minus = "minus"
        sheet.resistor("150 ohm", "minus", "ground", "5 W")
    sheet.join(minus, f"{name}.red-yellow")
    return minus


def _with_selenium(sheet: Sheet) -> str:
    """A stack behind a transformer, or straight on the line; then nothing but small parts joins minus and chassis."""
    sheet.rated = 400
    name, cord = sheet.name("T"), sheet.name("P")
    on_the_line = sheet.rng.random() < 0.4
    sheet.lines += [
        f'transformer {name} "{"heater" if on_the_line else "isolating"}" insulated',
        f"winding {name} primary black-a black-b 117 V 20 ohm",
        f"winding {name} heater green-a green-b 6.3 V",
        f"cord {cord}",
    ]
    sheet.two("fuse", "F", "1 A slow", "line-a", "line-c")
    sheet.join("line-a", f"{cord}.1")
    sheet.join("line-c", f"{name}.black-a")
    sheet.join("ground", f"{name}.green-b")
    sheet.join("heaters", f"{name}.green-a")
    if on_the_line:
        sheet.minus = "B-"
        sheet.lines += ["common B-", 'apart B-, chassis "one side of the line is on B-"']
        sheet.join("ground", f"{cord}.2", f"{name}.black-b")
    else:
        sheet.lines.append(f"winding {name} high red-a red-b 125 V 40 ohm")
        sheet.join("line-b", f"{cord}.2", f"{name}.black-b")
        sheet.join("high-a", f"{name}.red-a")
        sheet.join("ground", f"{name}.red-b")
    sheet.resistor("22 ohm", "line-c" if on_the_line else "high-a", "surge", "5 W")
    sheet.two("selenium", "SE", "130 V 100 mA", "B+1", "surge")
    return "ground"


# --- stages: from a net to a net, fed by one


def _triode(sheet: Sheet, into: str, out: str, feed: str) -> None:
    stage = len(sheet.nets)
    cathode = f"cath-{stage}"
    type_ = sheet.rng.choice(("6J5", "12AU7", "6SN7"))
    heaters = {"heater_1": "heaters", "heater_2": "ground"}
    if type_ == "6J5":
        sheet.tube(type_, grid=into, plate=out, cathode=cathode, **heaters)
    else:
        if type_ == "12AU7":
            heaters = {"heater_1": "heaters", "heater_2": "heaters", "heater_tap": "ground"}
        inner, second = f"mid-{stage}", f"grid-{stage}"
        a = {"grid_a": into, "plate_a": inner, "cathode_a": cathode}
        b = {"grid_b": second, "plate_b": out, "cathode_b": f"cath-b-{stage}"}
        sheet.tube(type_, **a, **b, **heaters)
        sheet.resistor(sheet.rng.choice(_OHMS), inner, feed, _LOAD)
        sheet.capacitor(sheet.rng.choice(_COUPLING), inner, second)
        sheet.resistor(sheet.rng.choice(_LEAKS), second, "ground")
        sheet.resistor("1.5k", f"cath-b-{stage}", "ground")
    sheet.resistor(sheet.rng.choice(_LEAKS), into, "ground")
    sheet.resistor(sheet.rng.choice(("1k", "2.2k", "3.3k")), cathode, "ground")
    sheet.resistor(sheet.rng.choice(_OHMS), out, feed, _LOAD)


def _pentode(sheet: Sheet, into: str, out: str, feed: str) -> None:
    stage = len(sheet.nets)
    cathode, screen = f"cath-{stage}", f"screen-{stage}"
    at = {"grid": into, "plate": out, "cathode": cathode, "grid_2": screen, "grid_3": cathode}
    type_ = sheet.rng.choice(("6SJ7", "6SK7", "6BA6"))
    sheet.tube(type_, heater_1="heaters", heater_2="ground", **at)
    sheet.resistor(sheet.rng.choice(_LEAKS), into, "ground")
    sheet.resistor("680 ohm", cathode, "ground")
    sheet.capacitor(".1 mfd", cathode, "ground", 200)
    sheet.resistor("1 meg", screen, feed)
    sheet.capacitor(".1 mfd", screen, "ground")
    sheet.resistor(sheet.rng.choice(_OHMS), out, feed, _LOAD)


def _detector(sheet: Sheet, into: str, out: str, feed: str) -> None:
    at = {"grid": into, "plate": out, "cathode": "ground", "diode_1": "ground", "diode_2": "ground"}
    sheet.tube(sheet.rng.choice(("6SQ7", "6AV6")), heater_1="heaters", heater_2="ground", **at)
    sheet.resistor("10 meg", into, "ground")
    sheet.resistor(sheet.rng.choice(_OHMS), out, feed, _LOAD)
    sheet.capacitor("250 mmfd", out, "ground")


def _output(sheet: Sheet, into: str, feed: str, screens: str) -> None:
    type_ = sheet.rng.choice(("6V6GT", "6L6", "6AQ5"))
    at = {"grid": into, "plate": "out-plate", "grid_2": screens, "cathode": "out-cath"}
    sheet.tube(type_, heater_1="heaters", heater_2="ground", **at)
    sheet.resistor("470k", into, "ground")
    sheet.resistor("270 ohm", "out-cath", "ground", "2 W")
    sheet.two("electrolytic", "C", "25 mfd 25 V", "out-cath", "ground")
    name, speaker = sheet.name("T"), sheet.name("LS")
    sheet.lines += [
        f'transformer {name} "output"', f"winding {name} primary blue red 300 ohm",
        f"winding {name} secondary green black 0.5 ohm", f"speaker {speaker} 3.2 ohm",
    ]  # fmt: skip
    sheet.join("out-plate", f"{name}.blue")
    sheet.join(feed, f"{name}.red")
    sheet.capacitor(".005 mfd", "out-plate", sheet.rng.choice((feed, "ground")), 600)
    sheet.join("voice", f"{name}.green", f"{speaker}.1")
    sheet.join("ground", f"{name}.black", f"{speaker}.2")


def _stages(sheet: Sheet, feeds: tuple[str, ...]) -> None:
    """A plug, a volume control, some stages with coupling capacitors between, and an output stage or a plug."""
    jack, pot = sheet.name("J"), sheet.name("RV")
    sheet.lines += [f'plug {jack} 2 pins "input"', f'pot {pot} 500k "volume"']
    sheet.join("input", f"{jack}.1", f"{pot}.cw")
    sheet.join("ground", f"{jack}.2", f"{pot}.ccw")
    sheet.join("wiper", f"{pot}.wiper")
    at = "wiper"
    ways: tuple[Callable[[Sheet, str, str, str], None], ...] = (_triode, _pentode, _detector)
    for n in range(sheet.rng.randint(1, 3)):
        grid, plate = f"grid-in-{n}", f"plate-out-{n}"
        sheet.capacitor(sheet.rng.choice(_COUPLING), at, grid)
        sheet.rng.choice(ways)(sheet, grid, plate, feeds[-1])
        at = plate
    sheet.capacitor(sheet.rng.choice(_COUPLING), at, "grid-out", 600)
    _output(sheet, "grid-out", feeds[0], feeds[min(1, len(feeds) - 1)])


def drawn(rng: Random) -> Sheet:
    """One set: its supply, its stages, and some lugs on its nets."""
    sheet = Sheet(rng, ["mains 117 V 60 Hz"])
    supply, volts = rng.choice(((_with_transformer, 500), (_with_selenium, 250)))
    minus = supply(sheet)
    feeds = tuple(f"B+{n}" for n in range(1, rng.randint(2, 4) + 1))
    _filter(sheet, feeds, minus, volts)
    _stages(sheet, feeds)
    if sheet.minus == "ground":
        sheet.join("ground", "chassis")
    else:
        sheet.nets[sheet.minus] = sheet.nets.pop("ground")
        sheet.join("frame", "chassis")
        sheet.resistor("220k", sheet.minus, "frame")
    for _ in range(rng.randint(0, 3)):
        _strip(sheet)
    return sheet


def _strip(sheet: Sheet) -> None:
    """A strip with a foot, some of whose lugs are on nets; where the foot is not bonded it is a lug like others."""
    name, lugs = sheet.name("SP"), sheet.rng.randint(3, 6)
    foot = sheet.rng.randint(1, lugs)
    is_bonded = sheet.rng.random() < 0.7
    sheet.lines.append(f"strip {name} {lugs} lugs foot {foot}{'' if is_bonded else ' insulated'}")
    free = [n for n in range(1, lugs + 1) if n != foot or not is_bonded]
    for lug in sheet.rng.sample(free, len(free) * 2 // 3):
        sheet.join(sheet.rng.choice(sorted(sheet.nets)), f"{name}.{lug}")
