"""The whole circuit: every lead is told once, every act has its sign, nothing lies on anything else."""

import re
from collections import Counter
from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from netcheck import api
from netcheck.cli import main
from netcheck.core.mend import Cut, Put, Solder, Wire
from netcheck.core.panel import Mark
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.model.graph import CircuitGraph
from netcheck.reports.drawing import A4, LETTER, PAPERS, POSTER, DrawnPages, Paper, sheet_dot, sheet_svg, whole_sheet
from netcheck.reports.drawing.scene import Box, Stroke, Words
from netcheck.reports.drawing.whole.order import directed, sections
from netcheck.reports.drawing.whole.plan import DrawingPlan, Node, Tie, planned
from netcheck.reports.drawing.whole.signs import changes, signs_of, without
from netcheck.system.files import read, reader
from netcheck.system.graphviz import find_engine
from tests.geometry import frame, overlap, words_on_words
from tests.paper import circuit

SAMPLES = Path(__file__).parent.parent / "samples"
NAMES = ("harrow-point", "marram", "skerry", "sallow-street", "one-can")


@cache
def told(name: str, state: str = "faulty") -> tuple[Report, CircuitGraph]:
    original, rewired = (read(str(SAMPLES / name / f"{one}.netck")) for one in ("original", state))
    find = reader(original, rewired)
    graph = api.circuit_of(rewired, find)
    assert graph is not None
    return api.compare(original, rewired, find), graph


@cache
def sheet_of(name: str, paper: Paper) -> tuple[DrawnPages, Report]:
    report, graph = told(name)
    return whole_sheet(report, graph, find_engine().layout, paper), report


def plan_of(report: Report, graph: CircuitGraph) -> DrawingPlan:
    state = CircuitGraph(without(report, graph.circuit))
    return planned(state, signs_of(report, graph), changes(report))


def words(made: DrawnPages) -> list[str]:
    return [thing.text for group in made.groups for thing in group.things if isinstance(thing, Words)]


@pytest.mark.parametrize("name", NAMES)
def test_every_part_is_there(name: str) -> None:
    made, _ = sheet_of(name, POSTER)
    _, graph = told(name)
    text = "\n".join(words(made))
    missing = [
        part.name
        for part in graph.circuit.parts.values()
        if part.leads
        and part.kind.word not in ("strip", "lug", "can")
        and not re.search(rf"(^|[ ;]){re.escape(part.name)}( |$)", text, flags=re.MULTILINE)
    ]
    assert missing == []


@pytest.mark.parametrize("name", NAMES)
def test_every_act_has_its_sign(name: str) -> None:
    _, graph = told(name)
    made, report = sheet_of(name, POSTER)
    drawn = [thing for group in made.groups for thing in group.things if isinstance(thing, Stroke) and thing.tags]
    signs = {(tag.mark, tag.done.act) for thing in drawn for tag in thing.tags}
    wanted = set()
    for _, found in report.numbered:
        for act in found.mends[0] if found.mends else ():
            wanted |= {(Mark.OFF.value, act.line)} if isinstance(act, Put | Cut) else set()
            wanted |= {(Mark.ON.value, act.line)} if isinstance(act, Put | Solder | Wire) else set()
    loose = {f"move {t.point} to" for t in graph.circuit.taken}  # what hangs on nothing has nothing to come off
    assert wanted
    assert {w for w in wanted if w not in signs and not any(w[1].startswith(one) for one in loose)} == set()
    assert {act for _, act in signs} <= {act.line for _, f in report.numbered for m in f.mends[:1] for act in m}


@pytest.mark.parametrize("paper", [POSTER, A4, LETTER], ids=["poster", "A4", "Letter"])
@pytest.mark.parametrize("name", ["harrow-point", "marram", "one-can"])
def test_no_words_on_words_or_beyond_the_paper_and_none_small(name: str, paper: Paper) -> None:
    made, _ = sheet_of(name, paper)
    things = [thing for group in made.groups for thing in group.things]
    assert words_on_words(things) == []
    assert max(frame(thing)[2] for thing in things if isinstance(thing, Words | Box)) <= made.width - paper.margin + 1
    assert min(thing.size for thing in things if isinstance(thing, Words)) >= 9
    boxes = [frame(thing) for thing in things if isinstance(thing, Box) and thing.stroke]
    assert not any(overlap(one, other) for i, one in enumerate(boxes) for other in boxes[:i])
    for group in made.groups if paper.height is not None else ():
        tops, ends = [frame(t)[1] for t in group.things], [frame(t)[3] for t in group.things]
        if paper.height is not None and len(group.things) > 3:
            assert min(tops) // paper.height == (max(ends) - 0.6) // paper.height


def test_a_lead_is_told_once() -> None:
    """By hand: what is on a rail in words, what is between two cards a line, a tube a box with its leads."""
    state = CircuitGraph(
        circuit(
            "state drawn\ntube V1 6J5\nresistor R1 100k\nresistor R2 1k\ncapacitor C1 .01 mfd\nresistor R3 470k\n"
            "net B+: R1.2\nnet plate: V1.plate, R1.1, C1.1\nnet grid: V1.grid, R3.1\n"
            "net out: C1.2\nnet cathode: V1.cathode, R2.1\nnet ground: chassis, R2.2, R3.2, V1.heater-1\n"
            "net heat: V1.heater-2\n"
        )
    )
    plan = planned(state, (), ())
    assert {node.head for node in plan.nodes} == {"B+", "plate", "out", "heat", "V1 6J5"}
    assert {tie.words for tie in plan.ties} == {"3", "R1 100k", "C1 .01 mfd", "7"}
    box = next(node for node in plan.nodes if node.kind == "box")
    assert box.lines == ("1 open", "2 chassis", "5 grid:", "   R3 470k to chassis", "8 cathode:", "   R2 1k to chassis")


def test_a_net_with_many_leads_is_a_word_and_no_knot() -> None:
    nine = ", ".join(f"R{n}.1" for n in range(9))
    parts = "".join(f"resistor R{n} 1k\nnet n{n}: R{n}.2, Q{n}.1\nresistor Q{n} 1k\n" for n in range(9))
    text = f"state drawn\n{parts}net bus: {nine}\nnet end: {', '.join(f'Q{n}.2' for n in range(8))}\nnet last: Q8.2\n"
    plan = planned(CircuitGraph(circuit(text)), (), ())
    heads = Counter(node.head for node in plan.nodes)
    assert "bus" not in heads
    assert heads["end"] == 1
    assert next(node for node in plan.nodes if node.head == "n0").lines == ("R0 1k to bus",)


def test_a_chain_is_not_laid_in_two_rows() -> None:
    """Written from its middle outwards, a chain of twenty nets has ten ranks."""
    nodes = tuple(Node(f"n{n}", "card", f"n{n}") for n in range(20))
    chain = DrawingPlan(nodes, tuple(Tie(f"n{n + 1 - n % 2}", f"n{n + n % 2}", "R") for n in range(19)))
    ordered = directed(chain)
    depth = dict.fromkeys((f"n{n}" for n in range(20)), 0)
    for _ in range(20):
        for tie in ordered.ties:
            depth[tie.b] = max(depth[tie.b], depth[tie.a] + 1)
    assert max(depth.values()) == 10


def test_sections_hold_every_node_once_and_every_line_once() -> None:
    report, graph = told("harrow-point")
    plan = plan_of(report, graph)
    parts = sections(plan, lambda part: len(part.nodes) <= 9)
    assert len(parts) > 5
    own = Counter(node.key for part in parts for node in part.nodes if node.kind != "far")
    assert own == Counter(node.key for node in plan.nodes)
    assert Counter(tie for part in parts for tie in part.ties) == Counter(plan.ties)
    for number, part in enumerate(parts, 1):
        keys = {node.key for node in part.nodes}
        assert all(tie.a in keys and tie.b in keys for tie in part.ties)
        for node in part.nodes:
            if node.kind == "far":
                (home,) = re.findall(r"in section (\d+)", node.lines[-1])
                assert node.key in {other.key for other in parts[int(home) - 1].nodes if other.kind != "far"}
                assert int(home) != number


def test_a_finding_says_in_which_section_it_is() -> None:
    made, report = sheet_of("harrow-point", A4)
    text = " ".join(words(made))
    shown = [(number, found) for number, found in report.numbered if found.mends]
    assert shown
    for number, found in shown:
        said = re.search(rf"{re.escape(found.headline.replace('`', ''))} \(section ([\d, ]+)\)", text)
        assert said is not None
        first = said[1].split(", ")[0]
        section = text.partition(f"Section {first} of ")[2].partition(f"Section {int(first) + 1} of ")[0]
        assert f" {number}: " in section
    assert text.count("(no sign in the picture)") == len(report.numbered) - len(shown)


@pytest.mark.parametrize("paper", ["poster", "a4"])
def test_same_files_same_bytes(paper: str) -> None:
    report, graph = told("skerry")
    engine = find_engine()
    made = [sheet_svg(whole_sheet(report, graph, engine.layout, PAPERS[paper]), report) for _ in range(2)]
    assert made[0] == made[1]


def test_it_is_drawn_into_the_files_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = [str(SAMPLES / "one-can" / f"{state}.netck") for state in ("original", "faulty")]
    outputs = [tmp_path / f"whole{ending}" for ending in (".svg", ".dot", ".png")]
    named = [word for path in outputs for word in ("-o", str(path))]
    assert main(["draw", *files, "--whole", *named]) == 1
    assert capsys.readouterr().out == "".join(f"{path} written: 2 STOP, 1 NOTE\n" for path in outputs)
    assert outputs[0].read_text().rstrip().endswith("</svg>")
    assert "layout=nop2" in outputs[1].read_text()
    assert outputs[2].read_bytes().startswith(b"\x89PNG")


def test_one_state_is_drawn_whole_too(tmp_path: Path) -> None:
    picture = tmp_path / "state.svg"
    assert main(["draw", str(SAMPLES / "skerry" / "rewired.netck"), "--whole", "-o", str(picture)]) == 0
    assert "take this off" not in picture.read_text()


def test_without_an_engine_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = [str(SAMPLES / "one-can" / f"{state}.netck") for state in ("original", "faulty")]
    picture = tmp_path / "whole.svg"
    assert main(["draw", *files, "--whole", "--engine", str(tmp_path / "none"), "-o", str(picture)]) == 2
    assert "is not a program that can be run" in capsys.readouterr().err
    assert not picture.exists()


def test_two_pictures_at_once_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = [str(SAMPLES / "one-can" / f"{state}.netck") for state in ("original", "faulty")]
    assert main(["draw", *files, "--whole", "--underside", "-o", str(tmp_path / "x.svg")]) == 2
    assert "--whole and --underside are two pictures" in capsys.readouterr().err


def test_an_engine_that_leaves_something_out_is_told() -> None:
    from netcheck.core.errors import EnvironmentFault

    report, graph = told("one-can")
    engine = find_engine()

    def forgetful(dot: str) -> str:
        return engine.layout("\n".join(line for line in dot.split("\n") if "e0" not in line))

    with pytest.raises(EnvironmentFault, match=r"of \d+ lines"):
        whole_sheet(report, graph, forgetful)
    with pytest.raises(EnvironmentFault, match=r"placed 0 of \d+ nodes and 0 of \d+ lines"):
        whole_sheet(report, graph, lambda _: '{"bb": "0,0,9,9", "objects": [{"name": "k0"}], "edges": [{}]}')
    with pytest.raises(EnvironmentFault, match="not JSON as expected"):
        whole_sheet(report, graph, lambda _: "{}")


HARM = ("</svg><script>alert(1)</script>", "<b>\\N", "\\G \\l [x] {a|b}", "\u00e9 & c", "<>", "x" * 300)


@pytest.mark.parametrize("text", HARM, ids=ascii)
def test_a_text_that_means_harm_is_shown_and_does_nothing(text: str) -> None:
    source = Source("cove.netck", f'state rewired\ntitle "{text}"\n{HARMED.replace("TEXT", text)}')
    find = reader(source)
    report, graph = api.check(source, find), api.circuit_of(source, find)
    assert graph is not None
    made = whole_sheet(report, graph, find_engine().layout)
    tree = ET.fromstring(sheet_svg(made, report))  # noqa: S314 - of our own making
    assert {el.tag.rpartition("}")[2] for el in tree.iter()} <= {"svg", "title", "desc", "g", "rect", "text", "path"}
    shown = [el.text or "" for el in tree.iter("{http://www.w3.org/2000/svg}text")]
    assert any(line.startswith("R1 ") for line in shown)
    assert find_engine().png(sheet_dot(made)).startswith(b"\x89PNG")


HARMED = """
resistor R1 "TEXT"
resistor R2 1k "TEXT"
transformer T1 "TEXT"
winding T1 primary a b
net one: R1.1, T1.a
net two: R1.2, R2.1
net three: R2.2, T1.b
"""
