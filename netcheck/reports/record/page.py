"""The page from its template: what is shown of each finding, and the policy that lets its own style and script run."""

import base64
import hashlib
from collections.abc import Iterator, Mapping
from importlib.resources import files

from markupsafe import Markup, escape
from msgspec import Struct
from msgspec.structs import replace

from netcheck import __version__
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.mend import lines
from netcheck.core.record import Record
from netcheck.core.report import Report
from netcheck.core.sheet import Row, Sheet, Table
from netcheck.core.visible import visible
from netcheck.core.wording import number_of
from netcheck.reports.drawing import drawing_svg, drawn_panel, panel_told
from netcheck.reports.excerpt import Excerpt, excerpt
from netcheck.reports.renderer import counted

__all__ = ["record_page"]

_ROOM = 509.0  # points of a picture, as on a page of A4
_COLUMNS = 96  # of an excerpt
_ON_SLIP = 14  # parts that a slip names; more are counted
# What the tables of the job are called where the work is done: which parts go and come, then which joints.
_PARTS = {"out": "Taken out", "screw": "Mounted", "change": "Changed in place", "ready": "Fitted"}
_JOINTS = {"off": "Off", "wires": "Wires", "on": "On, lug by lug", "dead": "Stays, and is dead"}


class _Quoted(Struct, frozen=True):
    """A line of a file in pieces, those that are meant marked, and what is said of it."""

    file: str
    line: int
    pieces: tuple[tuple[str, bool], ...]
    said: str


class _Shown(Struct, frozen=True):
    """A finding with its lines, orders and picture."""

    number: int
    found: Diagnostic
    quoted: tuple[_Quoted, ...]
    orders: tuple[str, ...]
    picture: Markup | None
    words: tuple[str, ...]


def record_page(record: Record) -> str:
    """The whole page. The same record gives the same bytes: no clock; a date is written by hand."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader("netcheck.reports.record", ""), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True, finalize=_safe,
    )  # fmt: skip
    environment.filters["typed"] = _typed
    style, script = _own("page.css"), _own("page.js")
    report = record.report
    return environment.get_template("page.html.j2").render(
        record=record,
        report=report,
        version=__version__,
        style=Markup(style),  # noqa: S704 - a file of this package
        script=Markup(script),  # noqa: S704 - likewise
        policy=_policy(style, script),
        verdict=verdict(report),
        counts=counted(report),
        findings=[_shown(number, found) for number, found in report.numbered],
        parts=_named(record.job, _PARTS),
        joints=_named(record.job, _JOINTS),
        slip=_slip(record.job),
    )


def _named(job: Sheet, headings: Mapping[str, str]) -> list[Table]:
    return [replace(table, heading=headings[table.key]) for table in job.tables if table.key in headings]


def verdict(report: Report) -> str:
    """The outcome in one sentence."""
    stops, looks = report.count(Grade.STOP), report.count(Grade.LOOK)
    if stops:
        return f"Do not plug it in: {number_of(stops, 'finding')} to mend first."
    if looks:
        return f"Nothing to stop for; {number_of(looks, 'finding')} to look at before the plug goes in."
    unchecked = " What was not looked at is said below." if report.unchecked else ""
    return f"On paper the chassis is wired as the original, but for what was changed on purpose.{unchecked}"


def _own(name: str) -> str:
    return (files("netcheck.reports.record") / name).read_text(encoding="utf-8")


def _policy(style: str, script: str) -> str:
    allowed = " ".join(f"{kind}-src '{_digest(text)}';" for kind, text in (("style", style), ("script", script)))
    return f"default-src 'none'; {allowed} base-uri 'none'; form-action 'none'"


def _digest(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _typed(text: str) -> Markup:
    """A text in which what stands between back quotes is set as what is typed, without them."""
    pieces = visible(text).split("`")
    if len(pieces) % 2 == 0:
        return escape("`".join(pieces))
    return Markup("").join(Markup("<code>{}</code>").format(one) if at % 2 else one for at, one in enumerate(pieces))


def _safe(value: object) -> object:
    """Every text of a file made visible; what is markup already was made so here."""
    return visible(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _shown(number: int, found: Diagnostic) -> _Shown:
    quoted = tuple(_quoted(found.labels))
    orders = lines(found.mends[0]) if found.mends else ()
    # A value alone is said in words; there is nothing to draw.
    if found.panel is None or not (found.panel.cards or found.panel.rows):
        return _Shown(number, found, quoted, orders, None, ())
    drawn = drawn_panel(found.panel, _ROOM)
    svg = drawing_svg(drawn.things, (drawn.width, drawn.height), found.panel, f"picture-{number}")
    # The drawing escapes every word that it is given.
    return _Shown(number, found, quoted, orders, Markup(svg), panel_told(found.panel))  # noqa: S704


def _quoted(labels: tuple[Label, ...]) -> Iterator[_Quoted]:
    """The lines of the labels, each once with all that is meant on it."""
    gap = "\N{HORIZONTAL ELLIPSIS}"
    lined: dict[tuple[str, int, str], list[tuple[Excerpt, Label]]] = {}
    for label in labels:
        at = excerpt(label.place, _COLUMNS, visible, gap)
        lined.setdefault((at.name, at.line, at.text), []).append((at, label))
    for (file, line, text), marks in lined.items():
        said = dict.fromkeys(label.text for _, label in marks if label.text.strip())
        spans = sorted({(len(at.before), len(at.before) + len(at.marked)) for at, _ in marks})
        yield _Quoted(file, line, tuple(_pieces(text, spans)), "; ".join(said))


def _pieces(text: str, spans: list[tuple[int, int]]) -> Iterator[tuple[str, bool]]:
    """The text cut at the spans, of which one that begins inside of another is left out."""
    done = 0
    for start, end in spans:
        if start >= done:
            yield text[done:start], False
            yield text[start:end], True
            done = end
    yield text[done:], False


def _slip(job: Sheet) -> list[str]:
    """What went in, in few words, to find inside the cabinet."""
    tables = {table.key: table.rows for table in job.tables}
    rows = [_said(row) for key in ("ready", "change") for row in tables.get(key, ())]
    more = len(rows) - _ON_SLIP
    return rows if more <= 0 else [*rows[:_ON_SLIP], f"and {more} more: see the record"]


def _said(row: Row) -> str:
    return f"{row.cells[0]}: {row.cells[-1]}" if len(row.cells) > 1 else row.cells[0]
