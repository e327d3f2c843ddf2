"""The kinds of part, one module each; a new kind takes its place here."""

from collections.abc import Mapping

from netcheck.core.kind import PartKind
from netcheck.parts import (
    battery,
    can,
    candohm,
    capacitor,
    choke,
    coil,
    cord,
    diode,
    electrolytic,
    fuse,
    lamp,
    lug,
    network,
    plug,
    pot,
    resistor,
    rheostat,
    section,
    selenium,
    speaker,
    strip,
    switch,
    transformer,
    tube,
)

__all__ = ["KINDS", "SOCKET"]

SOCKET = tube.SOCKET
"""What a tube that is removed leaves; no file declares one."""

# In the order of the language's manual page.
KINDS: Mapping[str, PartKind] = {
    kind.word: kind
    for kind in (
        resistor.KIND,
        candohm.KIND,
        capacitor.KIND,
        electrolytic.KIND,
        can.KIND,
        section.KIND,
        coil.KIND,
        choke.KIND,
        transformer.KIND,
        selenium.KIND,
        diode.KIND,
        tube.KIND,
        pot.KIND,
        rheostat.KIND,
        switch.KIND,
        lamp.KIND,
        fuse.KIND,
        battery.KIND,
        speaker.KIND,
        cord.KIND,
        strip.KIND,
        lug.KIND,
        plug.KIND,
        network.KIND,
    )
}
