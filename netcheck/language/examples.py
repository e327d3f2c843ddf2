"""For each first word of a statement, a line that is right."""

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["EXAMPLES", "kinds_of"]

EXAMPLES: Mapping[str, str] = MappingProxyType(
    {
        "title": 'title "Harrow Point 7 console receiver"',
        "state": "state rewired",
        "mains": "mains 117 V 60 Hz",
        "note": 'note C30 "lug cracked"',
        "include": 'include "parts/basings.netck"',
        "start": 'start from "original.netck"',
        "parts": 'parts from "original.netck"',
        "covers": "covers C30, L3, R41",
        "all": "all capacitors in mfd",
        "resistor": "resistor R41 2.7k 1 W 10%",
        "candohm": "candohm R60 250 ohm 150 ohm",
        "capacitor": "capacitor C22 .01 mfd 400 V paper",
        "electrolytic": "electrolytic C31 10 mfd 450 V",
        "can": "can C30 insulated",
        "coil": "coil L1 2.5 mH",
        "choke": "choke L3 12 H 350 ohm",
        "transformer": "transformer T1 grounded",
        "selenium": "selenium CR1 130 V 75 mA",
        "diode": "diode D1 1000 V 1 A",
        "tube": "tube V1 6SA7",
        "pot": "pot RV1 500k",
        "rheostat": "rheostat RH1 1k",
        "switch": "switch S1",
        "lamp": "lamp LM1 6.3 V 150 mA",
        "fuse": "fuse F1 1 A slow",
        "battery": "battery B1 22.5 V",
        "speaker": "speaker LS1 3.2 ohm",
        "cord": "cord P1 polarized",
        "strip": "strip SP1 5 lugs foot 3",
        "lug": "lug G1 grounded",
        "plug": "plug J1 2 pins",
        "network": "network PC1 5 pins",
        "section": "section C30A 20 mfd 450 V half-moon",
        "winding": "winding T1 primary black-a black-b 117 V",
        "position": "position S2 phono: 1 3, 4 6",
        "basing": "basing X99: 1 grid, 2 cathode, cap plate",
        "net": "net B+1: C30A+, L3.1",
        "meant": "meant B+2: R70.1",
        "at": "at SP1.3: C51-, R7.2",
        "wire": "wire SP1.1 to C30.A red",
        "fit": "fit R41 from C30.A to C30.B",
        "spare": "spare V4.5, C40.A",
        "common": "common B-",
        "apart": "apart B-, chassis",
        "place": "place SP1 120 85",
        "volts": "volts V5.plate 110 V",
        "draws": "draws B+2 65 mA",
        "supply": "supply boost to B+1 280 V",
        "meter": "meter 20000 ohm/V",
        "leakage": "leakage 0.75 mA",
        "remove": 'remove C22 "left out"',
        "lift": "lift T1.black-a",
        "move": "move R14.2 to SP2.1",
        "cut": "cut SP1.2 to SP1.3",
        "change": "change C28 .047 mfd 275 V X2",
        "accept": 'accept value-changed C61 "reason"',
    }
)

# The letters that names of parts begin with on service sheets; common practice.
_KINDS_BY_LETTERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "R": ("resistor",),
        "RV": ("pot",),
        "VR": ("pot",),
        "C": ("capacitor", "electrolytic"),
        "CR": ("selenium", "diode"),
        "SE": ("selenium",),
        "D": ("diode",),
        "L": ("coil", "choke"),
        "LM": ("lamp",),
        "LS": ("speaker",),
        "T": ("transformer",),
        "V": ("tube",),
        "F": ("fuse",),
        "S": ("switch",),
        "SW": ("switch",),
        "SP": ("strip",),
        "TS": ("strip",),
        "B": ("battery",),
        "P": ("cord", "plug"),
        "J": ("plug",),
        "G": ("lug",),
        "PC": ("network",),
    }
)


def kinds_of(name: str) -> tuple[str, ...]:
    """What a part of this name usually is, or the word for a can's section."""
    if name[0] == "C" and name[-1].isupper():
        return ("section",)
    letters = name.rstrip("ABCDEFGHabcdefgh").rstrip("0123456789")
    return _KINDS_BY_LETTERS.get(letters) or _KINDS_BY_LETTERS.get(letters[:1], ())
