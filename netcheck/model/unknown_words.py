"""A word that a kind of part does not know: what it may have been meant for."""

from netcheck.core.article import with_article
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.kind import Family, PartKind
from netcheck.core.quantity import Dimension
from netcheck.language import tree
from netcheck.model.messages import look, near, stop

__all__ = ["unknown_word"]


def unknown_word(word: tree.Word, kind: PartKind, rest: list[tree.Item]) -> Diagnostic:
    """What is said of a word that the kind does not know; what follows it goes with it where it was to have one."""
    headline = f"`{word.text}` is not a word for {with_article(kind.word)}"
    if rest and (meant := near(word.text, kind.arguments)):
        rest.pop(0)
        return stop("wrong-value", word.place, headline, meant)
    near_one = near(word.text, kind.words | kind.arguments)
    do = near_one or _meant(kind, word.text) or f"put it in a comment: `# {word.text}`"
    return look("unknown-word", word.place, headline, do)


def _meant(kind: PartKind, text: str) -> str:
    """What a word says that another kind of part is for."""
    plain = kind.family is Family.RESISTOR and Dimension.RESISTANCE not in kind.repeated
    if plain and text in ("tapped", "adjustable"):
        return "a tap makes it a candohm, with the ohms of each section: `candohm R3 22k 3.3k`"
    return ""
