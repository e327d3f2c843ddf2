"""Characters that a reader could not see, or that would act on the reader's screen, made visible."""

__all__ = ["visible"]

_UNSEEN = frozenset({"Cc", "Cf", "Cn", "Cs", "Co", "Zl", "Zp"})
_PLANE = 0x10000
_NONCHARACTERS = frozenset((*range(0xFDD0, 0xFDF0), *(n * _PLANE - back for n in range(1, 18) for back in (1, 2))))


def visible(text: str) -> str:
    """The text with each control, format, surrogate, private, unassigned and line-separating character as ``<U+001B>``.

    Tabs and line ends too: what comes from a file's names goes onto one line. Unicode's noncharacters are
    treated likewise, since no XML file may hold them.
    """
    if text.isprintable():
        return text
    return "".join(f"<U+{ord(sign):04X}>" if _unseen(sign) else sign for sign in text)


def _unseen(sign: str) -> bool:
    import unicodedata  # next to no text has a sign to ask about

    return unicodedata.category(sign) in _UNSEEN or ord(sign) in _NONCHARACTERS
