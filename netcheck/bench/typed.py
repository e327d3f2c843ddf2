"""What a part is called when another is fitted: its kind and its type, as a line of a file has them."""

from netcheck.core.circuit import Part
from netcheck.core.kind import Family

__all__ = ["kind_and_type"]


def kind_and_type(part: Part) -> str:
    """``tube 6J5``, ``lamp #47``, ``resistor``: a lamp's number alone would be read as a value."""
    number = "#" if part.kind.family is Family.LAMP and part.features.type else ""
    return f"{part.kind.word} {number}{part.features.type}".strip()
