"""Work that went wrong many times over: what two states differ in."""

import random

from tests.bounds.case import Case, Files

__all__ = ["WORK"]

COMPARE = ("compare", "original.netck", "rewired.netck")


def _pair(original: list[str], rewired: list[str]) -> Files:
    drawn = "\n".join(("state drawn", *original)) + "\n"
    work = "\n".join(("state rewired", 'start from "original.netck"', *rewired)) + "\n"
    return {"original.netck": drawn, "rewired.netck": work}


def _chain(size: int) -> list[str]:
    """As many resistors in a row, the last on the chassis."""
    lines = [f"resistor R{n} {n}k" for n in range(1, size + 1)]
    nets = [f"net n{n}: R{n}.1" + (f", R{n - 1}.2" if n > 1 else "") for n in range(1, size + 1)]
    return [*lines, *nets, f"net ground: R{size}.2, chassis"]


def _removals(size: int) -> Files:
    return _pair(_chain(size), [f"remove R{n}" for n in range(1, size)])


def _removals_with_reasons(size: int) -> Files:
    return _pair(_chain(size), [f'remove R{n} "left out"' for n in range(1, size)])


def _lifted(size: int) -> Files:
    return _pair(_chain(size), [f"lift R{n}.1" for n in range(2, size + 1)])


def _moved(size: int) -> Files:
    return _pair(_chain(size), [f"move R{n}.1 to R{n}.2" for n in range(1, size + 1)])


def _moved_by_lot(size: int) -> Files:
    dice = random.Random(1)  # noqa: S311 - repeatable
    return _pair(_chain(size), [f"move R{n}.1 to R{dice.randint(1, size)}.2" for n in range(1, size + 1)])


def _intended(size: int) -> Files:
    """Each a resistor's end to that of another, as was meant."""
    pairs = [f"resistor R{n} 10k\nresistor Q{n} 22k\nnet a{n}: R{n}.1, Q{n}.1" for n in range(1, size + 1)]
    ends = [f"net b{n}: R{n}.2\nnet c{n}: Q{n}.2" for n in range(1, size + 1)]
    return _pair([*pairs, *ends], [f'move R{n}.2 to Q{n}.2 intended "so"' for n in range(1, size + 1)])


def _intended_off_ground(size: int) -> Files:
    """All off one large net, and on to another."""
    parts = [f"resistor R{n} {n}k\nnet a{n}: R{n}.1\nnet ground: R{n}.2" for n in range(1, size + 1)]
    wires = [f'move R{n}.2 to R{size}.1 intended "so"' for n in range(1, size)]
    return _pair([*parts, "net ground: chassis"], wires)


def _intended_to_new_lugs(size: int) -> Files:
    """Each to a lug that the drawing does not have, which is taken for the net of what is soldered there."""
    pairs = [f"resistor R{n} 10k\nresistor Q{n} 22k\nnet a{n}: R{n}.1, Q{n}.1" for n in range(1, size + 1)]
    ends = [f"net b{n}: R{n}.2\nnet c{n}: Q{n}.2" for n in range(1, size + 1)]
    lugs = [f"lug G{n} insulated\nat G{n}: Q{n}.2" for n in range(1, size + 1)]
    return _pair([*pairs, *ends], [*lugs, *(f'move R{n}.2 to G{n} intended "so"' for n in range(1, size + 1))])


def _bridged(size: int) -> Files:
    strips = [f"lug G{n} insulated\nat G{n}: R{n}.1" for n in range(1, size + 1)]
    return _pair([*_chain(size), *strips], [f"wire G{n} to G{n + 1}" for n in range(1, size)])


def _turned(size: int) -> Files:
    parts = [f"electrolytic C{n} 10 mfd 450 V" for n in range(1, size + 1)]
    joints = [f"net B{n}: C{n}+, R{n}.1\nresistor R{n} 1k\nnet ground: chassis, C{n}-" for n in range(1, size + 1)]
    supply = [f"net B+: {', '.join(f'R{n}.2' for n in range(1, size + 1))}"]
    turns = [f"move C{n}+ to chassis\nmove C{n}- to R{n}.1" for n in range(1, size + 1)]
    return _pair([*parts, *joints, *supply], turns)


def _others_places(size: int) -> Files:
    numbers = range(1, size + 1)
    parts = [f"resistor R{n} {n}k" for n in numbers]
    nets = [f"net a{n}: R{n}.1\nnet b{n}: R{n}.2\nstrip SP{n} 2 lugs insulated" for n in numbers]
    places = [f"at SP{n}.1: R{n}.1\nat SP{n}.2: R{n}.2" for n in numbers]
    away = [f"move R{n}.1 to SP{n % size + 1}.1\nmove R{n}.2 to SP{n % size + 1}.2" for n in numbers]
    joined = [f"tube V{n} 6J5\nnet p{n}: SP{n}.1, V{n}.plate\nnet c{n}: SP{n}.2, V{n}.cathode" for n in numbers]
    return _pair([*parts, *nets, *places, *joined], away)


def _stranger(size: int, seed: int, letter: str) -> str:
    dice = random.Random(seed)  # noqa: S311 - repeatable
    lines = [f"resistor {letter}{n} {dice.choice((1, 2, 5, 10))}k" for n in range(size)]
    nets: dict[int, list[str]] = {}
    for n in range(size):
        for end in (1, 2):
            nets.setdefault(dice.randrange(size // 2), []).append(f"{letter}{n}.{end}")
    return "\n".join([*lines, *(f"net n{net}: {', '.join(leads)}" for net, leads in nets.items())])


def _strangers(size: int) -> Files:
    return {
        "original.netck": "state drawn\n" + _stranger(size, 1, "R") + "\n",
        "rewired.netck": "state rewired\n" + _stranger(size, 2, "R") + "\n",
    }


def _renamed_strangers(size: int) -> Files:
    return {
        "original.netck": "state drawn\n" + _stranger(size, 1, "R") + "\n",
        "rewired.netck": "state rewired\n" + _stranger(size, 2, "Q") + "\n",
    }


def _changed_values(size: int) -> Files:
    return _pair(_chain(size), [f"change R{n} 9 meg" for n in range(1, size + 1)])


def _drawn(ending: str) -> tuple[str, ...]:
    return (*COMPARE, "-o", f"out{ending}", "--overwrite")


WORK = (
    Case("removals", 2_000, COMPARE, _removals),
    Case("removals with reasons", 2_000, COMPARE, _removals_with_reasons),
    Case("lifted leads", 200, COMPARE, _lifted, share=0),
    Case("moved leads", 200, COMPARE, _moved, share=3),
    Case("leads moved by lot", 200, COMPARE, _moved_by_lot, share=3),
    Case("intended moves", 500, COMPARE, _intended, share=4),
    Case("intended moves off the ground", 500, COMPARE, _intended_off_ground, share=4),
    Case("intended moves to new lugs", 500, COMPARE, _intended_to_new_lugs, share=4),
    Case("nets bridged in a chain", 40, COMPARE, _bridged, share=0),
    Case("turned electrolytics", 80, COMPARE, _turned, share=0),
    Case("parts in each other's places", 20, COMPARE, _others_places, share=0),
    Case("strangers", 400, COMPARE, _strangers),
    Case("renamed strangers", 400, COMPARE, _renamed_strangers, share=4),
    Case("changed values", 160, COMPARE, _changed_values),
    Case("picture of many findings, DOT", 160, _drawn(".dot"), _changed_values),
    Case("picture of many lifted leads, DOT", 160, _drawn(".dot"), _lifted, share=0),
    Case("picture of many lifted leads, SVG", 160, _drawn(".svg"), _lifted, share=0),
    Case("job of many removals", 2_000, ("job", "original.netck", "rewired.netck"), _removals_with_reasons),
    Case("job of many changed values", 2_000, ("job", "original.netck", "rewired.netck"), _changed_values),
)
