"""A source read into its syntax tree, line by line, with every mistake of its form told in one run."""

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.source import Source
from netcheck.language.characters import legible
from netcheck.language.glance import Glance
from netcheck.language.grammar import compiled, first_words
from netcheck.language.lines import LogicalLine, split
from netcheck.language.recognise import recognised
from netcheck.language.slip import PlacedFlaw
from netcheck.language.transform import Transform
from netcheck.language.tree import Statement, Tree

__all__ = ["parse"]


def parse(source: Source) -> tuple[Tree, tuple[Diagnostic, ...]]:
    """The statements that can be read, in the order of the text, and a message for each line that can't be."""
    text = legible(source.text)
    transform = Transform(source)
    glance = Glance(source, text)
    statements: list[Statement] = []
    slips: list[PlacedFlaw] = []
    for line in split(text, first_words()):
        outcome = line.slip or glance.read(line.start, line.end) or _read(text, line, transform, glance)
        if isinstance(outcome, PlacedFlaw):
            slips.append(outcome)
        else:
            statements.append(outcome)
    slips.extend(transform.slips)
    slips.sort(key=lambda slip: (slip.start, slip.end))
    return Tree(tuple(statements)), tuple(slip.diagnostic(source) for slip in slips)


def _read(text: str, line: LogicalLine, transform: Transform, glance: Glance) -> Statement | PlacedFlaw:
    known = recognised(text, line.start, line.end)
    if known is None:
        return _judged(text, line, transform)
    slips = len(transform.slips)
    statement = transform.statement(known, line.start, line.end)
    if len(transform.slips) == slips:
        glance.keep(statement)
    return statement


def _judged(text: str, line: LogicalLine, transform: Transform) -> Statement | PlacedFlaw:
    """What Lark makes of a line that is not recognised, which mostly has a mistake."""
    # A file without mistakes is read without loading Lark, or the words for what is wrong.
    from lark.exceptions import UnexpectedInput

    from netcheck.language.diagnosis import diagnosis
    from netcheck.language.situation import Situation

    piece = text[line.start : line.end]
    try:
        parsed = compiled().parse(piece)
    except UnexpectedInput as stop:
        expected = getattr(stop, "expected", None) or getattr(stop, "allowed", None) or ()
        indented = text[line.start - 1 : line.start] in (" ", "\t")
        return diagnosis(Situation(piece, _stopped_at(stop, piece), frozenset(expected)), line.start, indented=indented)
    return transform.statement(parsed, line.start, line.end)


def _stopped_at(stop: Exception, piece: str) -> int:
    """Where in the piece the parser stopped; at its end, Lark gives the place of the last token."""
    token = getattr(stop, "token", None)
    position: int | None = getattr(stop, "pos_in_stream", None)
    return len(piece) if position is None or (token is not None and token.type == "$END") else position
