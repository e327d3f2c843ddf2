"""A text as a cell that no spreadsheet takes for anything but a text."""

from netcheck.core.visible import visible

__all__ = ["cell"]

# The wide forms are read like the narrow ones where the keyboard is set to write them.
_BEGINS_A_FORMULA = (
    "=", "+", "-", "@",
    "\N{FULLWIDTH EQUALS SIGN}", "\N{FULLWIDTH PLUS SIGN}", "\N{FULLWIDTH HYPHEN-MINUS}", "\N{FULLWIDTH COMMERCIAL AT}",
)  # fmt: skip


def cell(text: str) -> str:
    """The text; where a spreadsheet would compute it, with a blank in front."""
    safe = visible(text)
    return f" {safe}" if safe.startswith(_BEGINS_A_FORMULA) else safe
