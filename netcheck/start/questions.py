"""The six questions about a first chassis, and what is usual where nobody answers."""

from collections.abc import Callable, Mapping

from msgspec import Struct

from netcheck.start.answers import CANS, KINDS, RECTIFIERS, Answers

__all__ = ["QUESTIONS", "Question", "answers"]

MINUS: Mapping[str, str] = {"chassis": "B- is the chassis", "apart": "B- is kept apart from the chassis"}


class Question(Struct, frozen=True):
    """A question, its answers in words where there are few, and the usual one by what was said before."""

    name: str
    words: str
    usual: Callable[[Mapping[str, str]], str]
    choices: Mapping[str, str] | None = None
    of_one_can: bool = True


QUESTIONS = (
    Question("title", "What is the set called?", lambda _: "My first set"),
    Question("kind", "What is it?", lambda _: "console", KINDS),
    Question("rectifier", "What is its rectifier?", lambda _: "tube", RECTIFIERS, of_one_can=False),
    Question("minus", "Where is B-?", lambda said: "apart" if said["kind"] == "table" else "chassis", MINUS),
    Question(
        "can",
        "Which filter capacitors does it have?",
        lambda said: "grounded" if said["minus"] == "chassis" else "insulated",
        CANS,
    ),
    Question("line", "What is the line voltage?", lambda _: "117 V 60 Hz", of_one_can=False),
)


def answers(said: Mapping[str, str | None], ask: Callable[[Question, str], str]) -> Answers:
    """What was said, and what ``ask`` says to a question that is open, given the usual answer."""
    known: dict[str, str] = {}
    for question in QUESTIONS:
        usual = question.usual(known)
        is_open = question.of_one_can or known["kind"] != "can"
        known[question.name] = said.get(question.name) or (ask(question, usual) if is_open else usual)
    return Answers(
        known["title"], known["kind"], known["rectifier"], known["can"], known["minus"] == "chassis", known["line"]
    )
