"""What the drawing engine is given of a whole circuit, and what is read out of its answer."""

import pytest

from netcheck.reports.drawing.whole.laid import laid
from netcheck.reports.drawing.whole.plan import DrawingPlan, Node, Tie

SIZES = {"a": (36.0, 18.0), "b": (72.0, 36.0)}


@pytest.mark.parametrize(("across", "way"), [(False, "TB"), (True, "LR")])
def test_the_engine_is_given_boxes_of_the_true_size_and_the_words_at_lines(way: str, *, across: bool) -> None:
    """In inches, 72 points each; words between two blanks on each side, in the letters that they are drawn in."""
    asked: list[str] = []

    def engine(dot: str) -> str:
        asked.append(dot)
        return (
            '{"bb": "0,0,144,72", "objects": [{"name": "k0", "pos": "36,54"}, {"name": "k1", "pos": "108,18"}],'
            ' "edges": [{"comment": "e0", "pos": "s,36,54 36,54 60,42 84,30 108,18", "lp": "72,36"},'
            ' {"comment": "e1", "pos": "e,108,18 36,54 50,40 60,30 108,18"}]}'
        )

    nodes = (Node("a", "card", "a"), Node("b", "box", "b"))
    found = laid(DrawingPlan(nodes, (Tie("a", "b", "R1 \\N"), Tie("a", "b", ""))), SIZES, engine, across=across)
    for said in (f"rankdir={way}", "nodesep=0.15", "ranksep=0.3", "newrank=true", "outputorder=edgesfirst",
                 "fontname=Arial", "fontsize=9", "shape=box", 'label=""', "fixedsize=true",
                 "k0 [height=0.2500 width=0.5000]", "k1 [height=0.5000 width=1.0000]",
                 'k0 -- k1 [label="  R1 \\\\N  " comment=e0]', "k0 -- k1 [comment=e1]"):  # fmt: skip
        assert said in asked[0]
    assert (found.width, found.height) == (144, 72)
    assert found.middles == {"a": (36, 18), "b": (108, 54)}
    assert found.curves[0] == ((36, 18), (60, 30), (84, 42), (108, 54))
    assert found.words == ((72, 36), None)
