"""What a file shows of a set that can hurt who works on it, apart from the line: a picture tube, selenium.

A television is known by what the file calls it, by a boost voltage, and by tubes that only a television has: picture
tubes (JEDEC: the screen's inches, letters, the phosphor P4 or P22; Pro Electron: AW, MW or A and the size) and the
rectifiers of their anodes.
"""

import re

from netcheck.core.caution import Dangers, says_television
from netcheck.core.circuit import Circuit
from netcheck.core.kind import Family, Junction
from netcheck.core.type_table import squeezed

__all__ = ["dangers_of"]

_PICTURE_TUBE = re.compile(r"\d{1,2}[A-Z]{1,3}P(4|22)[A-Z]?|[AM]W\d{4}|A\d{4,5}[WX]")
_OF_ITS_ANODE = re.compile(r"(1B3|1G3|1J3|1K3|1X2|1V2|1S2|3A3|DY51|DY8[0267]|EY51|EY8[67])[A-Z]*")
_BOOST = re.compile(r"\bboost", re.IGNORECASE)


def dangers_of(circuit: Circuit, *, hot: bool) -> Dangers:
    """The dangers of one state; ``hot`` is what is known of its metal. A boost voltage is a television's."""
    texts = (circuit.title, *(text for _, text in circuit.notes))
    boosted = any(_BOOST.search(one.point) for one in circuit.supplies)
    return Dangers(
        hot=hot,
        television=boosted or any(map(says_television, texts)) or _has_its_tubes(circuit),
        selenium=any(part.kind.junction is Junction.SELENIUM for part in circuit.parts.values()),
    )


def _has_its_tubes(circuit: Circuit) -> bool:
    types = (squeezed(part.features.type) for part in circuit.parts.values() if part.kind.family is Family.TUBE)
    return any(one.fullmatch(type_) for type_ in types for one in (_PICTURE_TUBE, _OF_ITS_ANODE))
