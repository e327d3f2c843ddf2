"""A sheet as SVG: every run of words with its length, so that no other font cuts it; every mark with its act."""

import html
from collections.abc import Iterable, Iterator

from netcheck.core.panel import Panel
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.drawing.lettering import natural, spoken
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Tag, Thing, Words
from netcheck.reports.drawing.sentences import panel_told
from netcheck.reports.drawing.sheet import DrawnPages
from netcheck.reports.renderer import counted

__all__ = ["drawing_svg", "sheet_svg"]

_FONT = "Arial, Helvetica, 'Liberation Sans', sans-serif"
_DASH = "6 3.5"
_CELL_DASH = "4 2.5"


def sheet_svg(made: DrawnPages, report: Report) -> str:
    """The sheet as a file of its own; the description tells every picture in words."""
    words = [f"{spoken(counted(report))}."]
    for number, diagnostic in report.numbered:
        words.append(f"{number}: {spoken(diagnostic.headline, diagnostic.touched.nets)}.")
        words += panel_told(diagnostic.panel) if diagnostic.panel else ()
    body: list[str] = []
    for group in made.groups:
        inner = "\n".join(_written(group.things))
        body.append(f'<g id="f{group.number}-{len(body)}">\n{inner}\n</g>' if group.number else inner)
    parts = (
        '<?xml version="1.0" encoding="UTF-8"?>\n',
        _opened("sheet", made.width, made.height),
        _named("sheet", report.title, words),
        _page_style(made),
        _paper(made.width, made.height),
        "\n".join(body),
        "\n</svg>\n",
    )
    return "".join(parts)


def drawing_svg(things: Iterable[Thing], size: tuple[float, float], panel: Panel, name: str) -> str:
    """One panel's picture to stand inside a page, under ids that begin with ``name``."""
    inner = "\n".join(_written(things))
    return f"{_opened(name, *size)}{_named(name, '', panel_told(panel))}{_paper(*size)}{inner}\n</svg>\n"


def _page_style(made: DrawnPages) -> str:
    if made.paper.height is None:
        return ""
    return f"<style>@page {{ size: {made.paper.width}pt {made.paper.height}pt; margin: 0 }}</style>\n"


def _opened(name: str, width: float, height: float) -> str:
    size = f'width="{_n(width)}pt" height="{_n(height)}pt" viewBox="0 0 {_n(width)} {_n(height)}"'
    return (
        f'<svg role="img" aria-labelledby="{name}-title {name}-desc" {size} font-family="{_FONT}"'
        ' xmlns="http://www.w3.org/2000/svg">\n'
    )


def _named(name: str, title: str, words: Iterable[str]) -> str:
    return f'<title id="{name}-title">{_text(title)}</title>\n<desc id="{name}-desc">{_text(" ".join(words))}</desc>\n'


def _paper(width: float, height: float) -> str:
    return f'<rect width="{_n(width)}" height="{_n(height)}" fill="white"/>\n'


def _written(things: Iterable[Thing]) -> Iterator[str]:
    for thing in things:
        text = _thing(thing)
        if text:
            yield _tagged(text, thing.tags)


def _tagged(text: str, tags: tuple[Tag, ...]) -> str:
    for tag in tags:
        at = " ".join(tag.done.at)
        text = f'<g data-mark="{tag.mark}" data-act="{_text(tag.done.act)}" data-at="{_text(at)}">{text}</g>'
    return text


def _thing(thing: Thing) -> str:
    match thing:
        case Box():
            corner = f' rx="{_n(thing.radius)}"' if thing.radius else ""
            size = f'x="{_n(thing.x)}" y="{_n(thing.y)}" width="{_n(thing.width)}" height="{_n(thing.height)}"'
            return f"<rect {size}{corner}{_ink(thing)}/>"
        case Disc():
            return f'<circle cx="{_n(thing.x)}" cy="{_n(thing.y)}" r="{_n(thing.radius)}"{_ink(thing)}/>'
        case Words():
            return _words(thing)
        case Stroke():
            return _stroke(thing)


def _ink(thing: Box | Disc) -> str:
    fill = f' fill="{thing.fill or "none"}"'
    if not thing.stroke:
        return fill
    dash = f' stroke-dasharray="{_CELL_DASH}"' if thing.dashed else ""
    return f'{fill} stroke="{thing.stroke}" stroke-width="{_n(thing.weight)}"{dash}'


def _words(thing: Words) -> str:
    if not thing.text.strip():
        return ""
    shown = visible(thing.text)
    wide = natural(shown, thing.size, bold=thing.bold)
    weight = ' font-weight="bold"' if thing.bold else ""
    anchor = "" if thing.anchor == "start" else f' text-anchor="{thing.anchor}"'
    colour = "" if thing.colour == "black" else f' fill="{thing.colour}"'
    place = f'x="{_n(thing.x)}" y="{_n(thing.y)}" font-size="{_n(thing.size)}"{weight}{anchor}{colour}'
    return f'<text {place} textLength="{_n(wide)}" lengthAdjust="spacingAndGlyphs">{_text(shown)}</text>'


def _stroke(thing: Stroke) -> str:
    first, *rest = thing.points
    way = f"M{_n(first[0])} {_n(first[1])}C" + " ".join(f"{_n(x)} {_n(y)}" for x, y in rest)
    title = f"<title>{_text(thing.title)}</title>" if thing.title else ""
    drawn = _path(way, thing.fill or "none", thing.colour, thing.weight, dashed=thing.dashed)
    drawn = drawn.replace("/>", f">{title}</path>") if title else drawn
    return drawn + (_path(way, "none", thing.core, thing.weight / 2, dashed=thing.dashed) if thing.core else "")


def _path(way: str, fill: str, colour: str, weight: float, *, dashed: bool) -> str:
    dash = f' stroke-dasharray="{_DASH}"' if dashed else ""
    line = f'stroke="{colour}" stroke-width="{_n(weight)}" stroke-linejoin="round"{dash}'
    return f'<path d="{way}" fill="{fill}" {line}/>'


def _text(text: str) -> str:
    return html.escape(visible(text))


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
