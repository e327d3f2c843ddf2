"""The findings as commands to a GitHub runner, which shows them beside the lines of a change; for the screen only.

Nothing else goes out with them: the runner obeys any line that looks like a command, also one in an excerpt of a
netlist.
"""

from collections.abc import Iterator, Mapping

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.report import Report
from netcheck.reports.renderer import Style, shown
from netcheck.reports.where import Where, cautioned, wheres

__all__ = ["render"]

_WORDS: Mapping[Grade, str] = {Grade.STOP: "error", Grade.LOOK: "warning", Grade.NOTE: "notice"}


def render(report: Report, style: Style) -> str:
    """A line for every place of every finding; the places beside the main one are notices, so that none counts twice.

    The dangers of the set come first, since the service shows no more than ten notices of a step. Nothing else is
    printed, since a line of a netlist that looks like a command would be obeyed.
    """
    dangers = [_command("notice", at, "caution", [text], style) for at, text in cautioned(report)]
    found = [line for number, diagnostic in report.numbered for line in _lines(number, diagnostic, report, style)]
    return "".join(f"{line}\n" for line in (*dangers, *found))


def _lines(number: int, diagnostic: Diagnostic, report: Report, style: Style) -> Iterator[str]:
    main, *others = wheres(diagnostic, report)
    title = f"{number} {diagnostic.grade.value} {diagnostic.rule}"
    said = (diagnostic.headline, diagnostic.why, diagnostic.do)
    yield _command(_WORDS[diagnostic.grade], main, title, [text for text in said if text.strip()], style)
    for at in others:
        yield _command("notice", at, title, [f"{at.text}: {diagnostic.headline}".removeprefix(": ")], style)


def _command(word: str, at: Where, title: str, said: list[str], style: Style) -> str:
    figures = {"file": at.file, "line": at.line, "endLine": at.to_line, **_columns(at), "title": title}
    told = ",".join(f"{name}={_property(shown(str(figure), style))}" for name, figure in figures.items())
    text = "\n".join(shown(one, style) for one in said)
    return f"::{word} {told}::{_data(text)}"


def _columns(at: Where) -> dict[str, int]:
    """The first column and the last; the runner takes none for what goes over several lines."""
    if at.line != at.to_line:
        return {}
    return {"col": at.column, "endColumn": max(at.column, at.to_column - 1)}


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
