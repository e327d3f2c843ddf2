"""What a kind of part does, and how one is held on a chassis: what the rest of the house asks of it."""

from enum import Enum, auto

__all__ = ["Family", "Junction", "Seat"]


class Family(Enum):
    """What a part does between its leads: what rules, engines and the comparison ask of a kind.

    Each kind says its own, so that a new one takes its place in all of them. Kinds of one family may stand for each
    other in a circuit, as a selenium stack and a diode do.
    """

    RESISTOR = auto()
    CONTROL = auto()  # a resistance that a hand sets
    CAPACITOR = auto()  # either way round
    ELECTROLYTIC = auto()  # one way round
    INDUCTOR = auto()
    TRANSFORMER = auto()
    RECTIFIER = auto()  # a dry one
    TUBE = auto()  # which may rectify, amplify or both; its socket is a place to solder to
    FUSE = auto()
    SWITCH = auto()
    LAMP = auto()
    BATTERY = auto()
    SPEAKER = auto()
    CORD = auto()  # where the line comes in
    PLUG = auto()  # another chassis comes in here
    NETWORK = auto()  # parts moulded together; the parts are declared on their own
    PLACE = auto()  # lugs to solder to

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

    LEADS = auto()  # hangs by its own two leads
    MOUNTED = auto()  # is held apart, by a clip or screws; its leads or lugs are where the file joins them
    TERMINALS = auto()  # has lugs or leads of its own, which wires go to
    IN_CAN = auto()  # inside one, whose lugs are its leads
    SOCKET = auto()  # pins in a ring
    PLUG = auto()  # pins in a row
    STRIP = auto()  # lugs in a row
    LUG = auto()  # stands by its own name
    CAN = auto()  # lugs of sections around a common

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

    SILICON = auto()
    SELENIUM = auto()
