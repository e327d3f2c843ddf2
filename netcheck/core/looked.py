"""What came of one chassis of several."""

from msgspec import Struct

from netcheck.core.report import Report

__all__ = ["Looked"]


class Looked(Struct, frozen=True):
    """A chassis, the states that were looked at, and what is told of it.

    ``written`` are the files that were; ``troubles`` say why others could not be.
    """

    name: str
    states: tuple[str, ...]
    report: Report
    written: tuple[str, ...] = ()
    troubles: tuple[str, ...] = ()

    @property
    def failed(self) -> bool:
        """Whether something of it makes the run fail, or could not be done."""
        return not self.report.built or bool(self.troubles) or any(map(self.report.fails, self.report.diagnostics))
