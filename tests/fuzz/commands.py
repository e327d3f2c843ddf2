"""What is run: a command on files that are fresh, or good with slips in them."""

from random import Random

from netcheck.reports import FORMATS, SHEETS
from tests.fuzz.fresh import fresh, grown
from tests.fuzz.known import NAMES, State, known, words_of
from tests.fuzz.run import Run
from tests.fuzz.slips import slipped

__all__ = ["drawn"]

_ALONE = ("check", "lugs", "supply", "bench", "buy")
_BESIDE = ("compare", "compare", "compare", "job", "bench", "draw")
_PICTURES = (".svg", ".dot")
_ENDINGS = {
    "check": (*FORMATS,),
    "compare": (*FORMATS, *_PICTURES),
    "lugs": (".txt", ".json"),
    "supply": (".txt", ".json"),
    "bench": (*SHEETS,),
    "buy": (*SHEETS,),
    "job": (*SHEETS,),
    "draw": _PICTURES,
}


def drawn(dice: Random) -> Run:
    """A run by lot."""
    files = _files(dice)
    names = [name for name in NAMES if name in files]
    command = dice.choice(_BESIDE if len(names) > 1 and dice.random() < 0.7 else _ALONE)
    if command in _ALONE and not (command == "bench" and dice.random() < 0.3):
        names = [dice.choice(names)]
    return Run((command, *names, *_options(command, dice)), files)


def _files(dice: Random) -> State:
    if dice.random() < 0.4:
        return fresh(dice)
    files = dict(dice.choice(known()))
    name = dice.choice(sorted(files))
    change = dice.random()
    files[name] = (
        grown(files[name], dice) if change < 0.2 and name == NAMES[0] else slipped(files[name], words_of(), dice)
    )
    return files


def _options(command: str, dice: Random) -> list[str]:
    """How it is shown, or the file that it goes to."""
    words = ["--strict"] * (dice.random() < 0.2)
    way = dice.random()
    if command == "draw" or way < 0.3:
        return [*words, "-o", f"out{dice.choice(_ENDINGS[command])}"]
    if command in ("check", "compare", "lugs", "supply") and way < 0.7:
        return [*words, "--json"]
    if command in ("check", "compare") and way < 0.8:
        return [*words, "--lines"]
    return words
