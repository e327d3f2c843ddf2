"""How rectifiers conduct, as straight segments: vacuum, silicon and selenium."""

from netcheck.electrical.network.elements import Conduction

__all__ = ["SILICON_OHMS", "SILICON_VOLTS", "gas", "selenium", "silicon", "vacuum"]

SILICON_VOLTS, SILICON_OHMS = 0.7, 0.05  # common practice
GAS_OHMS = 5.0  # common practice: little, for the drop of an arc hardly depends on its current
PLATE_VOLTS, PLATE_OHMS = 1.0, 3.0  # a new plate, from memory

# A first filter capacitor is charged in pulses of four to six times the mean current (O. H. Schade, Analysis of
# Rectifier Operation, Proc. IRE 31, 1943).
PULSE = 6.0

# Corners of the three segments that follow i = v^1.5 best, in volts, for v from 0 to 1: off by 1.7 % of the
# highest drop at most, 0.7 % r.m.s. They lie on both sides of the curve, so that the mean volts come out right.
CORNERS = ((0.0170179, 0.0), (0.1873292, 0.0714573), (0.5262018, 0.3669503), (1.0, 0.9834117))


def vacuum(volts: float, amperes: float) -> Conduction:
    """Returns the 3/2-power law of a tube that "drops 50 V at 125 mA": ``vacuum(50, 0.125)``.

    The rated point is taken as the tube's mean current: the segments reach to six times as much.
    """
    highest = volts * PULSE ** (2 / 3)
    return Conduction(tuple((highest * drop, PULSE * amperes * share) for drop, share in CORNERS))


def gas(volts: float) -> Conduction:
    """Returns the law of a plate in mercury vapour, which drops the same ``volts`` at any current."""
    return _straight(volts, GAS_OHMS)


def silicon(diodes: int = 1) -> Conduction:
    """Returns the law of silicon diodes in series."""
    return _straight(SILICON_VOLTS * diodes, SILICON_OHMS * diodes)


def selenium(plates: int) -> Conduction:
    """Returns the law of a stack of new selenium plates; an aged one drops 10 to 20 V (from memory)."""
    return _straight(PLATE_VOLTS * plates, PLATE_OHMS * plates)


def _straight(volts: float, ohms: float) -> Conduction:
    return Conduction(((volts, 0.0), (volts + ohms, 1.0)))
