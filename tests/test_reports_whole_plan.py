"""The whole circuit as nodes and lines, by hand; how it is spread and cut, against another library of graphs."""

from random import Random

import networkx as nx
import pytest

from netcheck.core.panel import Mark
from netcheck.model.graph import CircuitGraph
from netcheck.reports.drawing.lettering import advance
from netcheck.reports.drawing.scene import Box, Stroke, Thing, Words
from netcheck.reports.drawing.whole.drawn import drawn, size_of
from netcheck.reports.drawing.whole.laid import Placement
from netcheck.reports.drawing.whole.order import directed, sections
from netcheck.reports.drawing.whole.plan import DrawingPlan, Node, Tie, planned
from netcheck.reports.drawing.whole.signs import Changed, Sign
from tests.geometry import Frame, frame, overlap, words_on_words
from tests.paper import circuit


def plan_of(text: str, *signs: Sign, changed: tuple[Changed, ...] = ()) -> DrawingPlan:
    return planned(CircuitGraph(circuit(f"state drawn\n{text}")), signs, changed)


def node(plan: DrawingPlan, head: str) -> Node:
    (found,) = [one for one in plan.nodes if one.head == head]
    return found


RAILS = "resistor R9 1k\nnet B-: " + ", ".join(f"Q{n}.1" for n in range(9)) + ", R9.1\nnet gnd: chassis, R9.2\n"
MANY = "".join(f"resistor Q{n} 1k\nnet n{n}: Q{n}.2, P{n}.1\nresistor P{n} 1k\n" for n in range(9))
ENDS = f"net end: {', '.join(f'P{n}.2' for n in range(4))}\nnet last: {', '.join(f'P{n}.2' for n in range(4, 9))}\n"


def test_a_part_between_two_rails_is_named_and_in_no_line() -> None:
    plan = plan_of(RAILS + MANY + ENDS)
    assert plan.aside == ("R9 1k, B- to chassis",)
    assert not any("R9" in tie.words for tie in plan.ties)


def test_a_part_with_both_ends_on_one_net_is_said_at_that_net() -> None:
    plan = plan_of("resistor R1 1k\nresistor R2 2.2k\nnet a: R1.1, R1.2, R2.1\nnet b: R2.2\n")
    assert node(plan, "a").lines == ("R1 1k, both ends",)


def test_a_part_that_hangs_by_one_end_is_a_box_with_an_open_lead() -> None:
    plan = plan_of("resistor R1 1k\nresistor R2 2.2k\nresistor R3 47k\nnet a: R1.1, R2.1, R3.1\nnet b: R2.2, R3.2\n")
    assert node(plan, "R1 1k").lines[0] == "2 open"
    assert [tie.words for tie in plan.ties if "R1" in tie.words] == []


@pytest.mark.parametrize("count", [1, 6, 7, 8])
def test_what_hangs_on_a_net_is_listed_up_to_seven_lines_and_counted_beyond(count: int) -> None:
    """Resistors side by side to the chassis: every one of them is a line, or is counted."""
    feet = [f"R{n}" for n in range(count)]
    parts = "".join(f"resistor {name} 1k\n" for name in feet)
    plan = plan_of(
        f"{parts}net top: {', '.join(f'{r}.1' for r in feet)}\nnet gnd: chassis, {', '.join(f'{r}.2' for r in feet)}\n"
    )
    told = tuple(f"{name} 1k to chassis" for name in feet)
    assert node(plan, "top").lines == (told if count <= 7 else (*told[:6], f"and {count - 6} more"))


def test_leads_of_a_box_that_share_a_net_are_one_line_and_those_on_a_rail_words() -> None:
    plan = plan_of(
        "tube V1 6J5\nresistor R1 1k\nresistor R2 1k\nnet x: V1.plate, V1.grid, R1.1, R2.1\nnet y: R1.2, R2.2\n"
        "net gnd: chassis, V1.heater-1, V1.cathode\n"
    )
    box = node(plan, "V1 6J5")
    assert [tie.words for tie in plan.ties if box.key in (tie.a, tie.b)] == ["3 5"]
    assert "2 8 chassis" in box.lines
    assert sorted(tie.words for tie in plan.ties if box.key not in (tie.a, tie.b)) == ["R1 1k", "R2 1k"]


def test_a_sign_is_a_line_of_its_own_with_its_number_at_both_ends() -> None:
    text = "resistor R1 1k\nresistor R2 2k\nnet a: R1.1, R2.1\nnet b: R1.2\nnet c: R2.2\n"
    graph = CircuitGraph(circuit(f"state drawn\n{text}"))
    at = graph.circuit.index
    sign = Sign(4, Mark.ON, at["R1.2"], at["R2.2"], "yellow 22 AWG", "solder R1.2 to R2.2")
    plan = planned(graph, (sign,), ())
    (signed,) = [tie for tie in plan.ties if tie.sign is not None]
    assert signed.words == "4: 2 to 2 yellow"
    assert {one.head: one.numbers for one in plan.nodes if one.numbers} == {"R1 1k": (4,), "R2 2k": (4,)}
    rail = Sign(2, Mark.OFF, at["R1.2"], 0, "", "lift R1.2")
    plan = planned(graph, (rail,), ())
    (tag,) = [one for one in plan.nodes if one.kind == "rail"]
    assert tag.head == "chassis"


def test_a_part_that_comes_out_is_a_box_with_its_number_and_a_heavy_frame() -> None:
    text = "resistor R1 1k\nresistor R2 2k\nnet a: R1.1, R2.1\nnet b: R1.2, R2.2\n"
    for out, mark in ((True, Mark.OFF), (False, Mark.PLAIN)):
        plan = plan_of(text, changed=(Changed(7, "R1", "remove R1", out=out),))
        box = node(plan, "R1 1k")
        assert (box.kind, box.numbers, box.mark) == ("box", (7,), mark)
        assert [tie.words for tie in plan.ties if box.key not in (tie.a, tie.b)] == ["R2 2k"]


def drawn_of(plan: DrawingPlan) -> list[Thing]:
    """The nodes side by side, the lines level between them."""
    sizes = {one.key: size_of(one) for one in plan.nodes}
    middles, x = {}, 0.0
    for key, (wide, _) in sizes.items():
        middles[key] = (x + wide / 2, 100.0)
        x += wide + 60
    ends = [(middles[tie.a], middles[tie.b]) for tie in plan.ties]
    curves = tuple((a, a, b, b) for a, b in ends)
    words = tuple(((a[0] + b[0]) / 2, 20.0 + 30 * i) for i, (a, b) in enumerate(ends))
    return list(drawn(plan, Placement(x, 200.0, middles, curves, words)))


SIGNS = (
    Sign(1, Mark.OFF, 1, 2, "red", "cut a to b"),
    Sign(12, Mark.ON, 1, 2, "", "solder R1.1 to SP1.2"),
    Sign(3, Mark.ON, 1, 2, "bond", "bond C1"),
)
PLAN = DrawingPlan(
    (
        Node("a", "card", "B+1", ("R3 470k to chassis", "   and more"), (1, 12)),
        Node("b", "box", "V1 6J5", ("1 open",), (12,), Mark.OFF),
        Node("c", "far", "plate", ("in section 2",)),
        Node("d", "rail", "chassis"),
    ),
    (Tie("a", "b", "R1 1k"), *(Tie("a", "b", f"{sign.number}: x", sign) for sign in SIGNS), Tie("c", "d", "")),
)


def test_a_plan_is_drawn_with_its_words_inside_its_frames_and_its_signs_in_their_style() -> None:
    things = drawn_of(PLAN)
    assert words_on_words(things) == []
    assert all(thing.size >= 9 for thing in things if isinstance(thing, Words))
    frames = [thing for thing in things if isinstance(thing, Box) and thing.height > 15]
    for said, owner in (("B+1", 0), ("R3 470k to chassis", 0), ("and more", 0), ("V1 6J5", 1), ("in section 2", 2)):
        (words,) = [thing for thing in things if isinstance(thing, Words) and thing.text == said]
        own = frame(words)
        box = frame(frames[owner])
        assert within(own, box), said
    (indented,) = [x for x in things if isinstance(x, Words) and x.text == "and more"]
    (head,) = [x for x in things if isinstance(x, Words) and x.text == "B+1"]
    assert indented.x > head.x
    assert head.bold
    strokes = [x for x in things if isinstance(x, Stroke)]
    assert [(x.dashed, x.weight > 5) for x in strokes if x.tags] == [(False, True), (True, False), (True, False)]
    assert [x.tags[0].done.act for x in strokes if x.tags] == [sign.act for sign in SIGNS]
    assert [x.title for x in strokes if x.tags] == [
        "1 take off: cut a to b", "12 put on: solder R1.1 to SP1.2", "3 put on: bond C1"
    ]  # fmt: skip
    assert sum(1 for x in strokes if not x.tags) == 2
    assert strokes[2].core == "#CC2222"


def test_a_frame_says_what_a_node_is_and_what_is_to_do() -> None:
    card, box, far = [x for x in drawn_of(PLAN) if isinstance(x, Box) and x.height > 15 and x.stroke]
    assert card.radius > 0
    assert box.radius == 0
    assert (far.dashed, card.dashed) == (True, False)
    assert box.weight > card.weight > far.weight  # comes out, is touched, goes on elsewhere


def test_numbers_stand_in_black_beside_the_head_each_in_its_own() -> None:
    things = drawn_of(PLAN)
    tags = [x for x in things if isinstance(x, Box) and x.fill == "black"]
    numbers = [x for x in things if isinstance(x, Words) and x.colour == "white"]
    assert [x.text for x in numbers] == ["1", "12", "12"]
    for tag, number in zip(tags, numbers, strict=True):
        own, box = frame(number), frame(tag)
        assert within(own, box)
    assert not any(overlap(frame(a), frame(b)) for i, a in enumerate(tags) for b in tags[:i])


def test_words_at_a_line_stand_on_white_and_a_line_without_words_has_none() -> None:
    things = drawn_of(PLAN)
    whites = [x for x in things if isinstance(x, Box) and x.fill == "white" and x.height < 15]
    said = [x for x in things if isinstance(x, Words) and x.anchor == "middle" and x.colour != "white"]
    assert [x.text for x in said] == [tie.words for tie in PLAN.ties if tie.words]
    for white, words in zip(whites, said, strict=True):
        assert white.x <= frame(words)[0]
        assert white.x + white.width >= frame(words)[2]
    assert [words.bold for words in said] == [False, True, True, True]
    assert len({words.colour for words in said}) == 3  # a part, what comes off, what goes on


def within(inner: Frame, outer: Frame) -> bool:
    return outer[0] <= inner[0] and inner[2] <= outer[2] and outer[1] <= inner[1] and inner[3] <= outer[3]


def tree(rng: Random, size: int) -> DrawingPlan:
    """A tree drawn by lot, and a second piece beside it."""
    nodes = tuple(Node(f"n{n}", "card", f"n{n}") for n in range(size + 3))
    ties = [Tie(f"n{n}", f"n{rng.randrange(n)}", "R") for n in range(1, size)]
    ties += [Tie(f"n{size}", f"n{size + 1}", "R"), Tie(f"n{size + 2}", f"n{size + 1}", "R")]
    rng.shuffle(ties)
    return DrawingPlan(nodes, tuple(ties))


def graph_of(plan: DrawingPlan) -> nx.Graph:
    graph = nx.Graph()
    graph.add_nodes_from(node.key for node in plan.nodes)
    graph.add_edges_from((tie.a, tie.b) for tie in plan.ties)
    return graph


@pytest.mark.parametrize("seed", range(8))
def test_lines_run_from_a_middle_of_each_piece_outwards(seed: int) -> None:
    """A tree written from one of its middles has as many ranks as its radius, which networkx knows."""
    plan = tree(Random(seed), 25)  # noqa: S311 - repeated from a seed
    ranks = nx.DiGraph((tie.a, tie.b) for tie in directed(plan).ties)
    graph = graph_of(plan)
    for piece in nx.connected_components(graph):
        own = ranks.subgraph(piece)
        roots = [key for key, count in own.in_degree() if not count]
        assert len(roots) == 1
        assert roots[0] in nx.center(graph.subgraph(piece))
        assert nx.dag_longest_path_length(own) == nx.radius(graph.subgraph(piece))


@pytest.mark.parametrize("size", [4, 6, 9])
def test_a_circuit_is_cut_where_the_fewest_lines_run(size: int) -> None:
    """Two clumps joined by one line: networkx finds the line, and no other is cut."""
    clumps = nx.disjoint_union(nx.complete_graph(size), nx.complete_graph(size))
    clumps.add_edge(1, size + 2)
    nodes = tuple(Node(f"n{n}", "card", f"n{n}") for n in clumps)
    plan = DrawingPlan(nodes, tuple(Tie(f"n{a}", f"n{b}", f"R{a}-{b}") for a, b in clumps.edges))
    one, other = nx.minimum_edge_cut(clumps).pop()
    parts = sections(plan, lambda part: len([n for n in part.nodes if n.kind != "far"]) <= size)
    assert len(parts) == 2
    homes = [{n.key for n in part.nodes if n.kind != "far"} for part in parts]
    assert sorted(map(len, homes)) == [size, size]
    assert not any({f"n{one}", f"n{other}"} <= home for home in homes)
    assert sum(1 for part in parts for n in part.nodes if n.kind == "far") == 1


def test_a_net_that_goes_on_in_many_sections_names_four_of_them() -> None:
    """A star, one node to a page."""
    boxes = [Node(f"r{ray}", "box", f"r{ray}") for ray in range(7)]
    ties = tuple(Tie(box.key, "hub", "lead") for box in boxes)
    plan = DrawingPlan((Node("hub", "card", "hub"), *boxes), ties, ("R9 1k, B- to gnd",))
    parts = sections(plan, lambda part: len([n for n in part.nodes if n.kind != "far"]) <= 1)
    assert len(parts) == 8
    (hub,) = [n for part in parts for n in part.nodes if n.key == "hub" and n.kind == "card"]
    home = next(i for i, part in enumerate(parts, 1) if hub in part.nodes)
    others = [i for i, part in enumerate(parts, 1) if i != home and any(n.key == "hub" for n in part.nodes)]
    assert len(others) > 4
    assert hub.lines == (f"more in section {', '.join(map(str, others[:4]))} ...",)
    for i in others:
        (far,) = [n for n in parts[i - 1].nodes if n.key == "hub"]
        assert (far.kind, far.lines) == ("far", (f"in section {home}",))
    assert [part.aside for part in parts] == [plan.aside, *[()] * (len(parts) - 1)]


def test_halves_that_fit_one_page_together_share_it() -> None:
    nodes = tuple(Node(f"n{n}", "card", f"n{n}") for n in range(9))
    chain = DrawingPlan(nodes, tuple(Tie(f"n{n}", f"n{n + 1}", "R") for n in range(8)))
    parts = sections(chain, lambda part: len([n for n in part.nodes if n.kind != "far"]) <= 4)
    assert len(parts) == 3  # no fewer hold nine nodes, four at a time
    whole = sections(chain, lambda _: True)
    assert len(whole) == 1
    assert whole[0].ties == chain.ties


def test_a_sign_to_a_rail_is_in_the_section_of_its_other_end() -> None:
    sign = Sign(1, Mark.ON, 1, 2, "", "act")
    nodes = (Node("a", "card", "a"), Node("b", "card", "b"), Node("t0", "rail", "chassis"))
    plan = DrawingPlan(nodes, (Tie("a", "b", "R"), Tie("b", "t0", "1:", sign)))
    one, other = sections(plan, lambda part: len([n for n in part.nodes if n.kind == "card"]) <= 1)
    rails = [[n.key for n in part.nodes if n.kind == "rail"] for part in (one, other)]
    home = [any(n.key == "b" and n.kind == "card" for n in part.nodes) for part in (one, other)]
    assert rails == [["t0"] if here else [] for here in home]


def test_a_node_is_as_wide_as_its_longest_line_and_as_tall_as_its_lines() -> None:
    bare, lined = size_of(Node("a", "card", "B+1")), size_of(Node("a", "card", "B+1", ("x" * 40, "y")))
    assert lined[0] >= advance("x" * 40, 9) + 8
    assert lined[1] - bare[1] == pytest.approx(2 * 12)
    assert size_of(Node("a", "card", "B+1", (), (1, 2)))[0] > bare[0]
