"""How much work may be done, counted in steps and never in seconds."""

__all__ = ["Budget"]


class Budget:
    """So many steps; who works on a problem that may be endless takes them off, and stops with what it has.

    A run stops at the same step on every machine, so that it says the same everywhere.
    """

    __slots__ = ("left",)

    def __init__(self, steps: int) -> None:
        self.left = steps

    @property
    def is_spent(self) -> bool:
        """Whether no step is left."""
        return self.left <= 0

    def spend(self, steps: int = 1) -> bool:
        """Takes steps off; whether there were any left to begin with."""
        if self.left <= 0:
            return False
        self.left -= steps
        return True
