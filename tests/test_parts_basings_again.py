"""Basings for which no page was found, typed a second time, type by type instead of base by base: it finds slips.

From memory of the receiving-tube manuals, as the table itself. The cap comes last, behind a bar.
"""

import pytest

from netcheck.core.kind import Features, Shape
from netcheck.parts import KINDS

NAMES = {
    ".": "", "ic": "", "h": "heater-1", "H": "heater-2", "ht": "heater-tap", "p": "plate", "p1": "plate-1",
    "p2": "plate-2", "pt": "plate-a", "pp": "plate-b", "k": "cathode", "kt": "cathode-a", "kp": "cathode-b",
    "g": "grid", "gt": "grid-a", "gp": "grid-b", "s": "screen", "sp": "screen-b", "su": "suppressor", "g2": "grid-2",
    "g3": "grid-3", "g3p": "grid-3-b", "g4": "grid-4", "d1": "diode-1", "d2": "diode-2", "d": "diode", "t": "target",
    "sh": "shell", "is": "shield",
}  # fmt: skip

ROWS = """
19      h pp gp gt pt H
22      h p s H | g
24A     h p s k H | g
27      h p g k H
34      h p s H | g
39      h p s k H | g
42      h p s g k H
46      h p g s H
53      h pp gp k gt pt H
59      h p s g su k H
75      h p d2 d1 k H | g
78      h p s su k H | g
80      h p2 p1 H
81      h p . H
84      h p2 p1 k H
6A7     h p s g2 g k H | g4
6B7     h p s d2 d1 k H | g
6E5     h p g t k H
6F7     h pp sp pt gt k H | gp
25Z5    h pp kp kt pt H
0Z4     sh . p2 . p1 . . k
5X4G    . . p2 . p1 . h H
5V4G    . h . p2 . p1 . H
35Z4GT  . h . . p . H k
6AX4GT  . . k . p . h H
6SF5    sh k g . p . h H
6SF7    sh g k s d p h H
6SC7    sh pp gp gt pt k h H
6SG7    sh h k g k s H p
6SK7    sh h su g k s H p
6SQ7    sh g k d2 d1 p h H
6K8     sh h pp sp gt pt H k | g3p
6J8G    . h pp sp gt pt H k | gp
6L7     sh h p s g3 . H k | g
6B8     sh h p d2 d1 s H k | g
6N7     sh h pp gp gt pt H k
6Q7     sh h p d2 d1 . H k | g
6F5     sh h . p . . H k | g
6B4G    . h p . g . H .
6BQ6GT  . h . s g . H k | p
6BG6G   . h k . g . H s | p
7027A   s h p s g g H k
1A5GT   . h p s g . H .
1A7GT   . h p s g g2 H . | g4
1G6GT   . h pp gp gt pt H .
1H5GT   . h p . d . H . | g
1N5GT   . h p s . . H . | g
3Q5GT   . h p s g . H ht
1LA4    h p s . . g . H
1LA6    h p g2 g s g4 . H
1LE3    h p . . . g . H
35Z3    h p . . . . k H
7A4     h p . . . g k H
7A7     h p s su is g k H
7B8     h p g2 g s g4 k H
7C5     h p s . . g k H
7F7     h kp pp gp gt pt kt H
7Y4     h . p1 . . p2 k H
1R5     h p s g h g3 H
1S4     h p g s h p H
6AK5    g k h H p s k
6AR5    g k h H p s .
6AU6    g su h H p s k
6AV6    g k h H d2 d1 p
6CB6    g k h H p s su
6DT6    g k h H p s g3
6J6     pp pt h H gt gp k
6C4     p . h H p g k
6X4     p2 . h H . p1 k
50C5    k g h H g s p
EF91    g k h H p su s
6AN8    pt gt kt h H pp sp gp kp
6AW8A   kt gt pt h H kp gp sp pp
6BL8    pt gp sp h H pp kp kt gt
6U8     pt gp sp h H pp kp kt gt
7199    pt pp sp h H kp gp kt gt
6CA4    p1 ic k h H ic p2 ic ic
ECH81   sp gp k h H pp g3p pt gt
EBF80   s g k h H p d2 d1 su
EF80    k g k h H is p s su
EF86    s is k h H p is su g
EL84    ic g k h H ic p ic s
EL41    h p ic ic s g k H
ECH42   h pp pt gt sp gp k H
EZ40    h p1 ic ic ic p2 k H
UY41    h p ic ic ic ic k H
"""


@pytest.mark.parametrize(("type_", "pins"), [line.split(maxsplit=1) for line in ROWS.strip().splitlines()])
def test_a_basing_typed_again(type_: str, pins: str) -> None:
    shape = KINDS["tube"].shape(Features(type=type_))
    assert isinstance(shape, Shape)
    socket, _, cap = pins.partition("|")
    wanted = [(str(number), word) for number, word in enumerate(socket.split(), start=1)]
    wanted += [("cap", word) for word in cap.split()]
    assert [terminal.name for terminal in shape.terminals] == [label for label, _ in wanted]
    for terminal, (label, word) in zip(shape.terminals, wanted, strict=True):
        known = {terminal.electrode, *terminal.aliases}
        assert NAMES[word] in known, (label, word, known)
