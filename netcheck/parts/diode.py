"""The diode: anode and cathode, never plus and minus."""

from netcheck.core.kind import Family, Features, Junction, PartKind, Seat, Shape, Terminal
from netcheck.core.quantity import Dimension, Quantity
from netcheck.parts.diode_types import diode_type_of

__all__ = ["KIND"]


def _shape(_: Features) -> Shape:
    return Shape(
        (Terminal("anode", aliases=("a",)), Terminal("cathode", aliases=("k", "band"))), polarity=("cathode", "anode")
    )


def _of_type(name: str) -> tuple[Quantity, ...]:
    known = diode_type_of(name)
    if known is None:
        return ()
    volts, amperes = known.inverse_volts, known.mean_amperes
    return (
        Quantity((volts,), Dimension.VOLTAGE, f"{volts} V"),
        Quantity((amperes,), Dimension.CURRENT, f"{amperes} A"),
    )


KIND = PartKind(
    word="diode",
    family=Family.RECTIFIER,
    seat=Seat.LEADS,
    example="diode D1 1N4007 1000 V 1 A",
    shape=_shape,
    principal=Dimension.CURRENT,
    rated=(Dimension.VOLTAGE, Dimension.CURRENT),
    dimensions=frozenset({Dimension.CURRENT, Dimension.VOLTAGE}),
    words=frozenset({"silicon", "germanium"}),
    typed=True,
    of_type=_of_type,
    junction=Junction.SILICON,
    letters=("D", "CR"),
    refused={
        "+": "plus is the cathode, where the direct voltage comes out, or the anode, the more positive end when it "
        "conducts: write `.cathode` (the band) or `.anode`",
        "-": "minus is the anode, the side of the alternating voltage, or the cathode, the more negative end when it "
        "conducts: write `.anode` or `.cathode` (the band)",
    },
    notes="the band is the cathode; the type may be left out; of the usual types (1N4007, 1N5408, UF4007) volts and "
    "amperes are known",
)
