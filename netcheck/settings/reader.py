"""Settings from TOML: every mistake in them is told, with its line and the near name."""

import re
from collections.abc import Iterator, Mapping

from netcheck.core.circuit import Acceptance
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.settings import STATES, ChassisEntry, Output, Settings, StateFile
from netcheck.core.source import Place, Source
from netcheck.settings.places import KeyPath, KeyPlaces, spots
from netcheck.settings.shape import ACCEPT, CHASSIS, NAME, TOP, Key

__all__ = ["RULE", "mistake", "settings"]

RULE = "settings"
"""The name of all mistakes in settings."""

_AT = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")


def mistake(place: Place, headline: str, do: str = "") -> Diagnostic:
    """What is wrong with the settings, at its place."""
    return Diagnostic(RULE, Grade.STOP, headline, (Label(place),), do=do)


def settings(source: Source) -> tuple[Settings | None, tuple[Diagnostic, ...]]:
    """What a text says, or None and all that is wrong with it."""
    import tomllib

    try:
        said = tomllib.loads(source.text)
    except tomllib.TOMLDecodeError as fault:
        return None, (_unreadable(source, str(fault)),)
    found = spots(source)
    problems = tuple(_problems(said, source, found))
    return (None, problems) if problems else (_settings(said, source, found), ())


def _unreadable(source: Source, told: str) -> Diagnostic:
    at = _AT.search(told)
    words = _AT.sub("", told)
    place = source.whole
    if at and at.group(1):
        # The reader drops carriage returns, and its column may be the one after a line's last.
        start = source.line_starts[min(int(at.group(1)), len(source.line_starts)) - 1]
        begin = min(start + int(at.group(2)) - 1, len(source.text))
        place = source.between(begin, min(begin + 1, len(source.text)))
    elif at:
        place = source.between(len(source.text), len(source.text))
    return mistake(place, f"this is no TOML: {words[:1].lower()}{words[1:]}")


def _problems(said: Mapping[str, object], source: Source, found: Mapping[KeyPath, KeyPlaces]) -> Iterator[Diagnostic]:
    yield from _table(said, (), TOP, _Around("the settings", source, found))
    chassis = said.get("chassis")
    if not isinstance(chassis, dict):
        return
    if not chassis:
        yield mistake(source.whole, "the settings name no chassis", "add a table: `[chassis.NAME]`")
    for name, own in chassis.items():
        yield from _chassis_problems(name, own, _Around(f"chassis `{name}`", source, found))


class _Around:
    """What a table is called, and where its keys stand."""

    def __init__(self, words: str, source: Source, found: Mapping[KeyPath, KeyPlaces]) -> None:
        self.words = words
        self._source = source
        self._found = found

    def key(self, path: KeyPath) -> Place:
        return self._spot(path)[0]

    def value(self, path: KeyPath) -> Place:
        return self._spot(path)[1]

    def _spot(self, path: KeyPath) -> tuple[Place, Place]:
        """The place of a key, or of what it stands in: an inline table is one line."""
        for end in range(len(path), 0, -1):
            if spot := self._found.get(path[:end]):
                return spot.key, spot.value
        return self._source.whole, self._source.whole


def _chassis_problems(name: str, own: object, around: _Around) -> Iterator[Diagnostic]:
    path = ("chassis", name)
    if not NAME.fullmatch(name):
        yield mistake(around.key(path), f"`{name}` is no name for a chassis", "use Latin letters, digits and . _ -")
    if not isinstance(own, dict):
        yield mistake(around.value(path), f"{around.words} is no table", f"write `[chassis.{name}]` above its keys")
        return
    yield from _table(own, path, CHASSIS, around)
    if not any(state in own for state in STATES):
        yield mistake(around.key(path), f"{around.words} names no state", f"add its files: {', '.join(STATES)}")
    accepted = own.get("accept")
    for at, one in enumerate(accepted if isinstance(accepted, list) else ()):
        if isinstance(one, dict):
            yield from _table(one, (*path, "accept", at), ACCEPT, around)
        else:
            yield mistake(around.value((*path, "accept")), f"`accept` of {around.words} has more than tables in it")


def _table(said: Mapping[str, object], path: KeyPath, keys: Mapping[str, Key], around: _Around) -> Iterator[Diagnostic]:
    inside = "an accepted finding" if path[2:3] == ("accept",) else around.words
    for name, value in said.items():
        if name not in keys:
            yield mistake(around.key((*path, name)), f"there is no key `{name}` in {inside}", _near(name, keys))
        elif not keys[name].fits(value):
            yield mistake(around.value((*path, name)), f"`{name}` of {inside} is {keys[name].words}")
    for name, key in keys.items():
        if key.needed and name not in said:
            yield mistake(around.key(path), f"`{name}` of {inside} is missing: {key.words}")


def _near(name: str, known: Mapping[str, Key]) -> str:
    from netcheck.model.messages import near  # only a mistake pays for it

    return near(name, known) or f"the keys are {', '.join(known)}"


def _settings(said: Mapping[str, object], source: Source, found: Mapping[KeyPath, KeyPlaces]) -> Settings:
    around = _Around("", source, found)
    tables = said["chassis"]
    chassis = tuple(_chassis(name, own, around) for name, own in tables.items()) if isinstance(tables, dict) else ()
    return Settings(source, chassis, bool(said.get("strict", False)), _outputs(said, (), around))


def _chassis(name: str, own: Mapping[str, object], around: _Around) -> ChassisEntry:
    path = ("chassis", name)
    states = tuple(StateFile(state, str(own[state]), around.value((*path, state))) for state in STATES if state in own)
    strict = own.get("strict")
    accept = own.get("accept")
    return ChassisEntry(
        name,
        states,
        around.key(path),
        tuple(_accepted(one, around.key((*path, "accept", at))) for at, one in enumerate(_tables(accept))),
        strict if isinstance(strict, bool) else None,
        _outputs(own, path, around),
    )


def _accepted(one: Mapping[str, str], place: Place) -> Acceptance:
    return Acceptance(one["rule"], (one["name"],), one["reason"], place)


def _tables(value: object) -> list[Mapping[str, str]]:
    return value if isinstance(value, list) else []


def _outputs(said: Mapping[str, object], path: KeyPath, around: _Around) -> tuple[Output, ...]:
    asked = said.get("outputs")
    place = around.value((*path, "outputs"))
    return tuple(Output(one, place) for one in asked) if isinstance(asked, list) else ()
