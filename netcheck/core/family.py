"""What a kind of part does, and how one is held on a chassis: what the rest of the house asks of it."""

from enum import Enum

__all__ = ["Family", "Junction", "Seat"]


class Family(Enum):
    """What a part does between its leads: what rules, engines and the comparison ask of a kind.

    Each kind says its own, so that a new one takes its place in all of them. Kinds of one family may stand for each
    other in a circuit, as a selenium stack and a diode do.
    """

    RESISTOR = "resistor"
    CONTROL = "control"  # a resistance that a hand sets
    CAPACITOR = "capacitor"  # either way round
    ELECTROLYTIC = "electrolytic"  # one way round
    INDUCTOR = "inductor"
    TRANSFORMER = "transformer"
    RECTIFIER = "rectifier"  # a dry one
    TUBE = "tube"  # which may rectify, amplify or both; its socket is a place to solder to
    FUSE = "fuse"
    SWITCH = "switch"
    LAMP = "lamp"
    BATTERY = "battery"
    SPEAKER = "speaker"
    CORD = "cord"  # where the line comes in
    PLUG = "plug"  # another chassis comes in here
    NETWORK = "network"  # parts moulded together; the parts are declared on their own
    PLACE = "place"  # lugs to solder to

    @property
    def stores(self) -> bool:
        """Whether it holds a charge, and blocks direct current."""
        return self in (Family.CAPACITOR, Family.ELECTROLYTIC)

    @property
    def closes(self) -> bool:
        """Whether it is a contact: nothing between its ends when closed, nothing through it when open."""
        return self in (Family.FUSE, Family.SWITCH)

    @property
    def resists(self) -> bool:
        """Whether it is there for its ohms."""
        return self in (Family.RESISTOR, Family.CONTROL)


class Seat(Enum):
    """How a part is held, and so where one solders to it."""

    LEADS = "leads"  # hangs by its own two leads
    MOUNTED = "mounted"  # is held apart, by a clip or screws; its leads or lugs are where the file joins them
    TERMINALS = "terminals"  # has lugs or leads of its own, which wires go to
    IN_CAN = "in a can"  # inside one, whose lugs are its leads
    SOCKET = "socket"  # pins in a ring
    PLUG = "plug"  # pins in a row
    STRIP = "strip"  # lugs in a row
    LUG = "lug"  # stands by its own name
    CAN = "can"  # lugs of sections around a common

    @property
    def has_pins(self) -> bool:
        """Whether one counts its pins, and not its lugs."""
        return self in (Seat.SOCKET, Seat.PLUG)

    @property
    def holds_by_lugs(self) -> bool:
        """Whether the leads of other parts are told by the lug that they are on."""
        return self in (Seat.STRIP, Seat.CAN)

    @property
    def counted(self) -> str:
        """How its lugs or pins are counted; empty where nothing is counted."""
        ways = {Seat.STRIP: "left to right seen from below", Seat.SOCKET: "clockwise seen from below"}
        return ways.get(self, "")


class Junction(Enum):
    """What a dry rectifier is made of."""

    SILICON = "silicon"
    SELENIUM = "selenium"
