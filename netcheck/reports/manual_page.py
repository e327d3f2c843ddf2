"""A page of `why` for the screen: prose in lines of a readable width, examples as they are."""

import re
from collections.abc import Iterator

from netcheck.reports.wrapping import in_lines

__all__ = ["MOST", "manual_page"]

MOST = 80
"""The most columns of a page, however wide the screen."""

_DEEP = "        "


def manual_page(text: str, width: int) -> str:
    """The page with its paragraphs wrapped; a block that is indented keeps its lines, but for long remarks in it."""
    room = min(width, MOST)
    plain = text.strip("\n").replace("``", "`")
    blocks = (_block(block, room) for block in re.split(r"\n{2,}", plain))
    return "\n\n".join(blocks) + "\n"


def _block(block: str, room: int) -> str:
    lines = block.split("\n")
    if not lines[0].startswith("    "):
        return "\n".join(in_lines(block.split(), room))
    return "\n".join(text for line in lines for text in (_remark(line, room) if line.startswith(_DEEP) else (line,)))


def _remark(line: str, room: int) -> Iterator[str]:
    return in_lines(line.strip().split(" "), room, _DEEP, _DEEP)
