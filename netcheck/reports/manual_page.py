"""A page of `why` for the screen: prose in lines of a readable width, examples as they are."""

import re

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
        return _wrapped(" ".join(block.split()), "", room)
    return "\n".join(_wrapped(line.strip(), _DEEP, room) if line.startswith(_DEEP) else line for line in lines)


def _wrapped(text: str, margin: str, room: int) -> str:
    lines, line = [], margin
    for word in text.split(" "):
        if line.strip() and len(line) + 1 + len(word) > room:
            lines.append(line)
            line = margin
        line = f"{line} {word}" if line.strip() else line + word
    return "\n".join((*lines, line))
