"""Where the drawing engine put a panel's nodes and lines."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from netcheck.core.errors import EnvironmentFault

__all__ = ["Laid", "Spot", "curve", "laid"]

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Laid:
    """A panel's size and places in points, from its upper left corner down and to the right.

    ``nodes`` are middles by node name, ``lines`` the two ends and ``labels`` the middle by the line's key.
    """

    width: float
    height: float
    nodes: Mapping[str, Spot]
    lines: Mapping[str, tuple[Spot, Spot]]
    labels: Mapping[str, Spot]


def laid(answer: str) -> Laid:
    """Read the engine's ``json0`` answer.

    Raises:
        EnvironmentFault: The answer is not what an engine that follows the format writes.
    """
    try:
        found = json.loads(answer)
        left, bottom, right, top = (float(number) for number in found["bb"].split(","))
        nodes = {item["name"]: _shift(_spots(item["pos"])[0], left, top) for item in found["objects"] if "pos" in item}
        edges = [item for item in found.get("edges", ()) if "comment" in item]
        ends = {item["comment"]: _spots(item["pos"]) for item in edges}
        labels = {item["comment"]: _shift(_spots(item["lp"])[0], left, top) for item in edges if "lp" in item}
        lines = {key: (_shift(at[0], left, top), _shift(at[-1], left, top)) for key, at in ends.items()}
    except (KeyError, TypeError, ValueError, IndexError) as fault:
        message = "the drawing engine's answer has no positions in it; `-o x.dot` needs none"
        raise EnvironmentFault(message) from fault
    return Laid(right - left, top - bottom, nodes, lines, labels)


def _spots(text: str) -> Sequence[Spot]:
    # An arrowhead's point would stand before the curve as `e,x,y`; we draw none.
    pairs = [pair.split(",") for pair in text.split() if pair[0] not in "es"]
    return [(float(x), float(y)) for x, y in pairs]


def _shift(spot: Spot, left: float, top: float) -> Spot:
    return (spot[0] - left, top - spot[1])


def curve(start: Spot, end: Spot) -> str:
    """A straight line as the engine's curve, its inner points at the thirds.

    The engine itself writes them onto the ends, and a line of three colours then tapers to a point.
    """
    return " ".join(f"{_point(start, end, step / 3)}" for step in range(4))


def _point(start: Spot, end: Spot, share: float) -> str:
    x, y = (a + (b - a) * share for a, b in zip(start, end, strict=True))
    return f"{x:.2f},{-y:.2f}"
