"""How a run is to be done, as values."""

from dataclasses import dataclass

from netcheck.core.diagnostic import Severity

__all__ = ["Settings"]


@dataclass(frozen=True, slots=True)
class Settings:
    """``fail_on`` is the least grave severity that makes a run fail."""

    fail_on: Severity = Severity.ERROR
