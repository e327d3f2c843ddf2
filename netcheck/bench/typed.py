"""What a part is called when another is fitted: its kind and its type, as a line of a file has them."""

from netcheck.core.circuit import Part
from netcheck.core.kind import Family

__all__ = ["kind_and_type", "type_and_values"]


def kind_and_type(part: Part) -> str:
    """``tube 6J5``, ``lamp #47``, ``resistor``."""
    return f"{part.kind.word} {_type(part)}".strip()


def type_and_values(part: Part) -> str:
    """``1N4007 1000 V 1 A``, ``470k 1/2 W``; empty where the file says nothing of it."""
    return " ".join(filter(None, (_type(part), *(q.written for q in part.features.quantities))))


def _type(part: Part) -> str:
    """A lamp's number alone would be read as a value."""
    number = "#" if part.kind.family is Family.LAMP and part.features.type else ""
    return f"{number}{part.features.type}"
