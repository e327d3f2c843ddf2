"""The sentences of the supply's table."""

from netcheck.core.caution import DISCHARGE

__all__ = [
    "AGAIN",
    "ASSUMED",
    "CALCULATED",
    "LATE",
    "LEFT_OUT",
    "MISSING",
    "NEVER",
    "OPEN",
    "OVERSHOOT",
    "PROVEN",
    "SHOUTED",
    "STAYS",
    "TOUCHED",
    "WAYS",
]

WAYS = {"right": "right way round", "reversed": "REVERSED", "either": "either way round", "both": "BOTH WAYS"}
SHOUTED = {"reversed": "REVERSED", "both": "BOTH WAYS"}
STAYS = (
    "This restores the running voltage only. Before the tubes draw current nothing drops across the resistor: cold, on "
    "a high line, {name} still sees {volts}, with it or without."
)
LATE = (
    "Silicon conducts at once. Until the other tubes warm up, every filter capacitor gets its cold voltage, which the "
    "slow {names} kept away."
)
OPEN = (
    "worst open: if this one part is open (a switch, a fuse, a resistor, a choke or field coil, a winding) the voltage "
    "stays longest; the next columns say how long."
)
MISSING = "Figures that depend on a missing value are left out (?). To have them, state:"
PROVEN = "proven to be the right way round once the set runs, whatever the values, tubes hot or cold, because of:"
OVERSHOOT = (
    "With a choke after rectifiers that conduct at once, the voltage overshoots for a moment after switching on; the "
    "cold figures are those of that moment."
)
ASSUMED = "assumed, since the file does not say"
LEFT_OUT = "left out of the calculation"
NEVER = f"never: nothing bleeds it. Discharge it by hand ({DISCHARGE})."
CALCULATED = "discharge after switching off{stands}, calculated; measure before touching:"
TOUCHED = (
    "line current through a hand that touches it and earth, calculated, at its worst: plug either way, switches any "
    "way, hot and cold heaters; `check` says what to do above a limit:"
)
AGAIN = "Capacitors recover some of their charge by themselves: measure again after a minute, and before touching."
