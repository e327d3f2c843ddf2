"""A headline about a state that is no more, in the past tense."""

__all__ = ["in_the_past"]

_PAST = {
    "is": "was", "are": "were", "hangs": "hung", "hang": "hung", "joins": "joined", "join": "joined", "leaves": "left",
    "returns": "returned", "return": "returned", "reaches": "reached", "reach": "reached", "has": "had", "have": "had",
    "gets": "got", "get": "got", "takes": "took", "does": "did",
}  # fmt: skip


def in_the_past(headline: str) -> str:
    """What was found, in the past; what belongs where, what the original has and what to do are as true as ever.

    A word that is followed by a verb is a name: ``return is joined to B+``.
    """
    said, mark, rest = headline.partition("; ")
    words = said.split(" ")
    verbs = [n for n, word in enumerate(words) if word in _PAST and words[n + 1 : n + 2] not in _NEXT]
    for n in verbs[:1] + [n for n in verbs[1:] if words[n - 1] == "and"]:
        words[n] = _PAST[words[n]]
    return " ".join(words) + mark + rest


_NEXT = [[word] for word in _PAST]
