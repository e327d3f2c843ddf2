"""What is wrong with a stretch of a text, before it becomes a diagnostic."""

from msgspec import Struct

from netcheck.core.diagnostic import Diagnostic, Flaw, Grade, Label
from netcheck.core.source import Source
from netcheck.core.visible import visible

__all__ = ["CHARACTER", "FORM", "VALUE", "PlacedFlaw", "clipped"]

FORM = "syntax"
VALUE = "unreadable-value"
CHARACTER = "refused-character"

_WIDEST = 40


class PlacedFlaw(Struct, frozen=True):
    """A flaw with its rule and its place, in absolute offsets."""

    start: int
    end: int
    flaw: Flaw
    rule: str = FORM

    def diagnostic(self, source: Source) -> Diagnostic:
        """The slip as a message about a source."""
        label = Label(source.between(self.start, self.end))
        return Diagnostic(self.rule, Grade.STOP, self.flaw.headline, (label,), do=self.flaw.help)


def clipped(word: str) -> str:
    """The user's word in backticks; a very long one shortened, so that a message stays a sentence."""
    return f"`{visible(word)}`" if len(word) <= _WIDEST else f"`{visible(word[:_WIDEST])}...`"
