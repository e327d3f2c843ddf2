"""What a repository's settings say: its chassis, their states, what is accepted, what is written."""

from msgspec import Struct

from netcheck.core.circuit import Acceptance
from netcheck.core.source import Place, Source

__all__ = ["MARK", "STATES", "ChassisEntry", "Output", "Settings", "StateFile"]

STATES = ("drawn", "found", "planned", "rewired")
"""The states of a chassis, the earliest first."""


class StateFile(Struct, frozen=True):
    """The netlist of a state: its path from the settings' folder, and where the settings say so."""

    state: str
    path: str
    place: Place


class ChassisEntry(Struct, frozen=True):
    """One chassis: its states, the earliest first and at least one, and what it has of its own."""

    name: str
    states: tuple[StateFile, ...]
    place: Place
    accepted: tuple[Acceptance, ...] = ()
    strict: bool | None = None
    outputs: tuple["Output", ...] = ()


class Output(Struct, frozen=True):
    """A file to write: its path from the settings' folder, and where the settings say so."""

    path: str
    place: Place

    @property
    def is_shared(self) -> bool:
        """Whether all chassis go into it together."""
        return MARK not in self.path


class Settings(Struct, frozen=True):
    """The settings of a repository; each path of ``outputs`` may hold ``{chassis}``, those of a chassis always do."""

    source: Source
    chassis: tuple[ChassisEntry, ...]
    strict: bool = False
    outputs: tuple[Output, ...] = ()

    @property
    def shared_outputs(self) -> tuple[str, ...]:
        """The files that all chassis go into together."""
        return tuple(one.path for one in self.outputs if one.is_shared)

    def outputs_of(self, chassis: ChassisEntry) -> tuple[str, ...]:
        """The files of one chassis."""
        asked = (*(one for one in self.outputs if not one.is_shared), *chassis.outputs)
        return tuple(dict.fromkeys(one.path.replace(MARK, chassis.name) for one in asked))

    def strict_for(self, chassis: ChassisEntry) -> bool:
        """Whether LOOK makes this chassis fail."""
        return self.strict if chassis.strict is None else chassis.strict


MARK = "{chassis}"
"""What stands for the name of a chassis in the path of an output."""
