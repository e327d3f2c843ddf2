"""Valid netlists drawn from the grammar file, with values at the edge of what is read.

Lines are drawn rule by rule, with the names of the points that the parts so far have. What the file's own messages
refuse is taken out, so that what is left is built and goes through the rules and engines.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from random import Random

from lark.grammar import Rule

from netcheck.core.circuit import Circuit
from netcheck.language.examples import EXAMPLES
from netcheck.language.grammar import compiled, first_words, spellings, unit_terminals
from tests.fuzz.extremes import NUMBERS, TEXTS
from tests.fuzz.known import NAMES, State
from tests.paper import built

__all__ = ["fresh", "grown", "line"]

_DEEPEST = 30
_ROUNDS = 6
"""Times that refused lines are taken out; what is then still refused is kept, and the run says why."""

_VALUE = re.compile(r"(?<=\s)\.?[0-9][0-9.]*(?= ?[a-zA-Z%])")
_WORK = ("remove", "lift", "move", "cut", "change", "wire", "at", "fit", "net", "note", "meant", "spare")
_PLAIN = ("1", "10", "47", "100", "450", ".1", ".01", "6.3", "2.2")
_TYPES = ("6SA7", "35Z5-GT", "5Y3-GT", "6V6", "ECC83", "EL84", "6J5", "80", "EZ80", "50L6-GT", "6AU6")
_NETS = ("B+", "B-", "ground", "a", "b", "c", "heater", "grid", "line-a", "line-b")
_PARTS = ("R1", "R2", "C1", "C2", "C3", "V1", "V2", "T1", "L1", "D1", "S1", "SP1", "F1", "P1", "LS1")


_SPELLED: Mapping[str, Sequence[str]] = {
    "TEXT": (*TEXTS, '"as it was"'),
    "LAMP_NUMBER": ("#47", "#44", "#1819", "#00"),
    "_COLON": (":",),
    "_COMMA": (",",),
}


@dataclass(frozen=True, slots=True)
class _Pool:
    """What may stand for a name."""

    points: Sequence[str]
    dice: Random

    def name(self) -> str:
        """A point most of the time."""
        dice = self.dice
        return dice.choice(dice.choice((self.points, self.points, self.points, _NETS, _PARTS, _TYPES, first_words())))


def fresh(dice: Random) -> State:
    """One file or two, the second as a log of what was done to the first."""
    text = _kept(_lines(dice), {}, dice)
    if dice.random() < 0.4:
        return {NAMES[0]: text}
    circuit, _ = built(text)
    head = (f"state {dice.choice(('rewired', 'planned', 'found'))}", f'start from "{NAMES[0]}"')
    points = _points(circuit)
    work = [line(dice.choice(_WORK), _Pool(points, dice)) for _ in range(dice.choice((2, 6, 20)))]
    return {NAMES[0]: text, NAMES[1]: _kept([*head, *work], {NAMES[0]: text}, dice)}


def grown(text: str, dice: Random) -> str:
    """A good netlist with lines of the grammar after it, among its own points."""
    circuit, _ = built(text)
    pool = _Pool(_points(circuit), dice)
    return "\n".join([text, *(line(dice.choice(first_words()), pool) for _ in range(dice.choice((1, 3, 10))))])


def _points(circuit: Circuit | None) -> tuple[str, ...]:
    return tuple(point.name for point in circuit.points) if circuit else _PARTS


def _lines(dice: Random) -> list[str]:
    """Parts with their values, then what joins and is said of them."""
    parts = list(dict.fromkeys(_part(dice) for _ in range(dice.choice((3, 10, 30)))))
    circuit, _ = built(_kept(parts, {}, dice))
    pool = _Pool(_points(circuit), dice)
    first = ["mains 117 V 60 Hz"] if dice.random() < 0.7 else []
    more = [line(dice.choice(("net", "net", "net", "at", "wire", *first_words())), pool) for _ in range(2 * len(parts))]
    return [*first, *parts, *more, *_joined(pool)]


def _joined(pool: _Pool) -> Iterator[str]:
    """Each point on some net, so that currents have somewhere to flow."""
    nets = _NETS[: pool.dice.choice((2, 5, len(_NETS)))]
    for point in pool.points:
        if pool.dice.random() < 0.8:
            yield f"net {pool.dice.choice(nets)}: {point}"


def _part(dice: Random) -> str:
    """The example of a kind with other values and, mostly, another number."""
    kind = dice.choice(
        [word for word, _ in (*spellings("KIND"), *spellings("TUBE"), *spellings("LAMP"))] + ["section", "winding"]
    )
    example = EXAMPLES[kind]
    word, name, *rest = example.split(" ")
    number = dice.randint(1, 9)
    if kind not in ("section", "winding", "can", "transformer"):
        name = name.rstrip("0123456789") + str(number)
    text = " ".join((word, name, *rest)).replace("6SA7", dice.choice(_TYPES))
    return _VALUE.sub(lambda _: dice.choice(NUMBERS) if dice.random() < 0.3 else dice.choice(_PLAIN), text)


def _kept(lines: Sequence[str], others: Mapping[str, str], dice: Random) -> str:
    """The lines that are not refused."""
    named = {name.removesuffix(".netck"): text for name, text in others.items()}
    for _ in range(_ROUNDS):
        text = "\n".join(lines) + "\n"
        try:
            circuit, problems = built(text, **named)
        except Exception:  # noqa: BLE001 - what falls over here is run as it is, and counted there
            break
        if circuit is not None:
            break
        refused = {label.place.line for problem in problems for label in problem.labels[:1]}
        lines = [one for number, one in enumerate(text.split("\n")[:-1], 1) if number not in refused] or [_part(dice)]
    return "\n".join(lines) + "\n"


def line(first: str, pool: _Pool) -> str:
    """A statement that begins with a word."""
    shapes = [rule for rule in _rules()["statement"] if _begins(rule.expansion[0].name) & {first}]
    words = list(_expanded(pool.dice.choice(shapes).expansion[0].name, pool, 0))
    opener = next((at for at, word in enumerate(words) if word in first_words()), 0)
    return " ".join((*words[:opener], first, *words[opener + 1 :])).replace(" :", ":").replace(" ,", ",")


def _expanded(symbol: str, pool: _Pool, depth: int) -> Iterator[str]:
    ways = _rules().get(symbol)
    if ways is None:
        yield _terminal(symbol, pool)
        return
    way = min(ways, key=lambda rule: len(rule.expansion)) if depth > _DEEPEST else pool.dice.choice(ways)
    for part in way.expansion:
        yield from _expanded(part.name, pool, depth + 1)


def _terminal(name: str, pool: _Pool) -> str:
    dice = pool.dice
    match name:
        case "NAME":
            return pool.name()
        case "QUANTITY":
            number = dice.choice(NUMBERS if dice.random() < 0.5 else _PLAIN)
            return f"{number}{dice.choice(('', ' '))}{dice.choice(_units())}"
        case _:
            return dice.choice(_SPELLED.get(name) or [word for word, _ in spellings(name)])


@cache
def _units() -> tuple[str, ...]:
    return tuple(word for unit in unit_terminals() for word, _ in spellings(unit))


@cache
def _rules() -> Mapping[str, Sequence[Rule]]:
    """The ways to write each symbol of the grammar, as Lark has taken its stars and brackets apart."""
    found: dict[str, list[Rule]] = {}
    for rule in compiled().rules:
        found.setdefault(rule.origin.name, []).append(rule)
    return found


@cache
def _begins(symbol: str) -> frozenset[str]:
    """The words that a statement's rule begins with."""
    ways: Iterable[Rule] = _rules()[symbol]
    return frozenset(word for rule in ways for word, _ in spellings(rule.expansion[0].name))
