"""What is wrong with what a run came to; nothing of netcheck is asked."""

import csv
import io
import json
import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping
from xml.etree import ElementTree as ET

from tests.fuzz.run import Outcome, Run
from tests.fuzz.worker import MOST_SECONDS

__all__ = ["BY_EYE", "READERS", "wrongs"]

_HEADLINE = re.compile(r"^ *\d+  (STOP|LOOK|NOTE)  ", re.MULTILINE)
_COUNTED = re.compile(r"(\d+) (STOP|LOOK|NOTE)")
_LINED = re.compile(r"^\S.*?:\d+:\d+: (STOP|LOOK|NOTE): ", re.MULTILINE)
_BY_STATUS = ("check", "compare", "draw")


def wrongs(run: Run, first: Outcome, second: Outcome) -> tuple[str, ...]:
    """Each thing that is wrong in a few words; of two outcomes of one run, which have to be equal."""
    for fault in filter(None, (first.fault, second.fault)):
        return ("over its seconds" if "TooLongError" in fault else "traceback",)
    found = [told for told in (_status(run, first), _unsafe(first), _unreadable(run, first)) if told]
    if first.seconds > MOST_SECONDS:
        found.append("over its seconds")
    if first.said != second.said:
        found.append("two runs differ")
    return tuple(found)


def _status(run: Run, outcome: Outcome) -> str:
    """Whether the status agrees with what was told."""
    expected = _expected(run, outcome)
    return "" if outcome.status in expected else f"status {outcome.status}, not {' or '.join(map(str, expected))}"


def _expected(run: Run, outcome: Outcome) -> tuple[int, ...]:
    if not outcome.out:
        return (2,) if outcome.err else (0,) if "--lines" in run.words else ()  # no finding, no line
    if run.command not in _BY_STATUS:
        return (0, 1) if not outcome.err else ()
    try:
        grades = _document(outcome.out) if "--json" in run.words else _told(run, outcome)
    except ValueError:  # no document, or one that counts otherwise than it tells
        return ()
    if grades is None:
        return (2,)
    fails = {"STOP", "LOOK"} if "--strict" in run.words else {"STOP"}
    # Text of files that could not be built looks like any other: there is always a STOP in it.
    unsure = "STOP" in grades and "--json" not in run.words
    return (1, 2) if unsure else (1,) if fails & set(grades) else (0,)


def _document(text: str) -> list[str] | None:
    """The grades of all findings; None where the files could not be built."""
    document = json.loads(text)
    grades = [one["grade"] for one in document["findings"]]
    counted = {grade: grades.count(grade) for grade in ("STOP", "LOOK", "NOTE")}
    if counted != {grade: document["counts"][grade] for grade in counted}:
        raise ValueError(counted)
    return grades if document["built"] else None


def _told(run: Run, outcome: Outcome) -> list[str]:
    if run.output:
        return [grade for number, grade in _COUNTED.findall(outcome.out) if int(number)]
    return (_LINED if "--lines" in run.words else _HEADLINE).findall(outcome.out)


def _unsafe(outcome: Outcome) -> str:
    """A sign that acts on the reader's screen or hides what stands beside it."""
    text = outcome.out + outcome.err + outcome.written.replace("\t", "")  # a DOT file is indented so
    acts = sorted({sign for sign in text if sign not in "\n\r" and _acts(sign)})
    return f"signs that act: {' '.join(f'U+{ord(sign):04X}' for sign in acts)}" if acts else ""


def _acts(sign: str) -> bool:
    return unicodedata.category(sign) in ("Cc", "Cs") or unicodedata.bidirectional(sign) in (
        "LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"
    )  # fmt: skip


def _unreadable(run: Run, outcome: Outcome) -> str:
    """A file that the standard reader of its kind refuses."""
    texts = [(run.output.rpartition(".")[2], outcome.written)] if outcome.written else []
    texts += [("json", outcome.out)] if "--json" in run.words and outcome.out else []
    for kind, text in texts:
        for fault in _faults(kind, text):
            return f"unreadable {kind}: {fault}"
    return ""


def _faults(kind: str, text: str) -> Iterator[str]:
    if kind not in BY_EYE:
        try:
            READERS[kind](text)
        except (ValueError, SyntaxError, csv.Error) as fault:  # what those readers raise
            yield str(fault)


def _no_constant(name: str) -> None:
    raise ValueError(name)


def _json(text: str) -> object:
    return json.loads(text, parse_constant=_no_constant)


def _csv(text: str) -> object:
    rows = list(csv.reader(io.StringIO(text), strict=True))
    if formula := next((cell for row in rows for cell in row if cell[:1] in ("=", "@")), ""):
        raise ValueError(formula)
    return rows


READERS: Mapping[str, Callable[[str], object]] = {
    "json": _json,
    "sarif": _json,
    "csv": _csv,
    "xml": ET.fromstring,
    "svg": ET.fromstring,
}
BY_EYE = frozenset({"txt", "md", "html", "dot"})
"""What no standard reader refuses."""
