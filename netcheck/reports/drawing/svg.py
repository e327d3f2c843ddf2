"""An engine's SVG made fit to be read: a title and a description, no node names, our own lettering."""

import html
import re
from collections.abc import Iterable

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.errors import EnvironmentFault
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.drawing.heading import heading, numbered
from netcheck.reports.drawing.lettering import spoken
from netcheck.reports.drawing.telling import told

__all__ = ["panel_svg", "sheet_svg"]

_ROOT = re.compile(
    r'<svg width="(?P<width>[\d.]+)pt" height="(?P<height>[\d.]+)pt"\s+viewBox="(?P<box>[-\d. ]+)"[^>]*>'
)
# The user's words are escaped in the engine's answer, so these match what the engine wrote and nothing else.
_NODE_NAMES = re.compile(r"<title>[^<]*</title>\n?")
_REMARKS = re.compile(r"<!--.*?-->\n?", re.DOTALL)
_LETTERING = 'font-family="Arial, Helvetica, sans-serif"'
_NAMESPACES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def sheet_svg(svg: str, report: Report) -> str:
    """The sheet as a file of its own; the description tells every picture in words."""
    shown, _ = numbered(report)
    words = list(heading(report, drawn=bool(shown)).lines)
    for number, diagnostic, panel in shown:
        words += [f"{number}: {spoken(diagnostic.headline, diagnostic.touched.nets)}.", *told(panel)]
    root, body = _parted(svg)
    size = f'width="{root["width"]}pt" height="{root["height"]}pt"'
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    return f"{head}{_opened('sheet', size, root['box'])}{_named('sheet', report.title, words)}{body}"


def panel_svg(svg: str, diagnostic: Diagnostic, number: int) -> str:
    """A panel's picture to stand inside a page; it has its natural width, and a page's style may narrow it."""
    root, body = _parted(svg)
    name = f"f{number}"
    words = told(diagnostic.panel) if diagnostic.panel else ()
    opened = _opened(name, f'width="{root["width"]}pt"', root["box"])
    return f"{opened}{_named(name, spoken(diagnostic.headline, diagnostic.touched.nets), words)}{body}"


def _parted(svg: str) -> tuple[re.Match[str], str]:
    """The engine's root element, and all that is inside it with the closing tag."""
    root = _ROOT.search(svg)
    if root is None:
        raise EnvironmentFault("the drawing engine's SVG is not as expected: it has no size")
    body = _NODE_NAMES.sub("", _REMARKS.sub("", svg[root.end() :]))
    return root, body.replace('font-family="Arial"', _LETTERING)


def _opened(name: str, size: str, box: str) -> str:
    return f'<svg role="img" aria-labelledby="{name}-title {name}-desc" {size} viewBox="{box}" {_NAMESPACES}>\n'


def _named(name: str, title: str, words: Iterable[str]) -> str:
    return (
        f'<title id="{name}-title">{html.escape(visible(title))}</title>\n'
        f'<desc id="{name}-desc">{html.escape(visible(" ".join(words)))}</desc>'
    )
