"""Fuses as they are sold, and which of them a set takes."""

__all__ = ["SOLD", "fuse_for"]

SOLD = (0.25, 0.3, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
"""Amperes of common slow fuses of 6.3 by 32 mm (makers' catalogues, from memory)."""

ENOUGH = 1.5  # times what flows: less opens in the end, though nothing is wrong (common practice)


def fuse_for(amperes: float) -> float:
    """The least fuse of one and a half times the current or more; the largest where none is large enough."""
    return next((each for each in SOLD if each >= ENOUGH * amperes), SOLD[-1])
