"""How ohms and volts are printed on a sheet for the bench."""

__all__ = ["ohms_words", "percent_words", "volts_words"]

_STEPS = ((1e6, " meg"), (1e3, " k"))


def ohms_words(ohms: float) -> str:
    """Three figures at most: ``0.5``, ``470``, ``2.2 k``, ``1.5 meg``."""
    rounded = float(f"{ohms:.3g}")
    for size, word in _STEPS:
        if rounded >= size:
            return f"{rounded / size:.3g}{word}"
    return f"{rounded:.3g}"


def percent_words(low: float, nominal: float, high: float) -> str:
    """The limits around a figure: ``±20 %`` where alike on both sides, else ``(1.6 k to 2.9 k)``."""
    below, above = 1 - low / nominal, high / nominal - 1
    if nominal >= 10 and abs(below - above) < 0.03:
        return f"\N{PLUS-MINUS SIGN}{100 * max(below, above):.0f} %"
    return f"({ohms_words(low)} to {ohms_words(high)})"


def volts_words(volts: float) -> str:
    """Volts as a meter is read: to a tenth below 10, else to the volt."""
    return f"{volts:.1f} V" if abs(volts) < 9.95 else f"{volts:.0f} V"
