"""Which state comes first: drawn, found, planned, rewired."""

from netcheck.core.circuit import Circuit, StateOfWork
from netcheck.core.errors import UsageFault

__all__ = ["refuse_wrong_order"]

_ORDER = (StateOfWork.DRAWN, StateOfWork.FOUND, StateOfWork.PLANNED, StateOfWork.REWIRED)


def refuse_wrong_order(old: Circuit, new: Circuit, *, in_work: bool = True) -> None:
    """Raises UsageFault where the first file is not the earlier state.

    ``in_work`` asks that the first is the original, drawn or found, and not a state of the work itself; what was
    planned may be held against what was rewired.
    """
    if new.source.name in old.sources[:-1]:
        raise UsageFault(
            f"{old.source.name} starts from {new.source.name}, so the two are in the wrong order: "
            f"{new.source.name} comes first"
        )
    if StateOfWork.UNSAID in (old.state, new.state):
        return
    before, after = _ORDER.index(old.state), _ORDER.index(new.state)
    if before > after:
        raise UsageFault(
            f"{old.source.name} is {old.state.value} and {new.source.name} is {new.state.value}: "
            f"{new.source.name} comes first"
        )
    if old.state is new.state is StateOfWork.DRAWN and old.source.name != new.source.name:
        raise UsageFault("both files are `drawn`; the second one is what was found, planned or rewired")
    latest = StateOfWork.PLANNED if new.state is StateOfWork.REWIRED else StateOfWork.FOUND
    if in_work and before > _ORDER.index(latest):
        raise UsageFault(f"{old.source.name} is {old.state.value}; the first file is the original, drawn or found")
