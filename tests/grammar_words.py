"""The language's words as tables, read from the grammar: what tests write netlists of."""

from netcheck.language.grammar import clause_words, first_words, spellings, unit_terminals

STATEMENT_WORDS: tuple[str, ...] = first_words()
"""What a line can begin with, kinds of parts included."""

KIND_WORDS: tuple[str, ...] = tuple(word for terminal in ("KIND", "TUBE", "LAMP") for word, _ in spellings(terminal))
CLAUSE_WORDS: tuple[str, ...] = clause_words()
STATE_WORDS: tuple[str, ...] = tuple(word for word, _ in spellings("STATE_WORD"))

UNITS: tuple[tuple[str, bool], ...] = tuple(
    spelling for terminal in unit_terminals() for spelling in spellings(terminal)
)
"""Each unit's spellings, and whether any case will do; those that can mean two things are left out."""
