"""What each command may import: nothing that costs and that its run does not use."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from netcheck.parts import KINDS

ROOT = Path(__file__).parents[1]

COSTLY = frozenset(
    {"asyncio", "click", "csv", "difflib", "graphviz", "hashlib", "html", "importlib.resources", "inspect", "jinja2",
     "json", "lark",
     "markupsafe", "multiprocessing", "networkx", "numpy", "pint", "scipy", "subprocess", "tempfile", "tomllib",
     "unittest", "xml", "zipfile",
     "netcheck.api", "netcheck.bench", "netcheck.compare", "netcheck.comparison", "netcheck.core.panel",
     "netcheck.electrical.network.elements", "netcheck.electrical.table", "netcheck.language.diagnosis",
     "netcheck.model.places", "netcheck.records", "netcheck.reports.drawing", "netcheck.reports.record",
     "netcheck.repository", "netcheck.settings", "netcheck.sheets", "netcheck.start", "netcheck.system.graphviz",
     "netcheck.system.picture", "netcheck.system.watch"}
)  # fmt: skip
"""Each takes a good part of what Python alone needs to start, or stands for a room that does."""

WITH_NETWORKX = {"csv", "hashlib", "html", "importlib.resources", "networkx", "tempfile", "xml", "zipfile"}
"""networkx with what it brings along: for nets that may have changed places in more than one way."""
COMPARING = {"netcheck.api", "netcheck.compare", "netcheck.comparison"}
SUPPLIED = {"inspect", "netcheck.electrical.network.elements", "netcheck.electrical.table", "numpy"}

ONE, WORK, FAULTY = (f"samples/one-can/{state}.netck" for state in ("original", "rewired", "faulty"))
FED = "samples/skerry/original.netck"

MAY: dict[tuple[str, ...], set[str]] = {
    ("--version",): {"click", "inspect"},
    ("compare", "--help"): {"click", "inspect"},
    ("why",): {"netcheck.api", "netcheck.compare"},
    ("check", ONE): {"netcheck.api"},
    ("check", ONE, "--json"): {"netcheck.api", "json"},
    ("check", FED): {"netcheck.api", *SUPPLIED},
    ("compare", ONE, WORK): COMPARING,
    ("compare", ONE, FAULTY): {*COMPARING, "netcheck.core.panel", "netcheck.model.places"},
    ("compare", FED, FED.replace("original", "faulty")): {
        *COMPARING,
        *WITH_NETWORKX,
        *SUPPLIED,
        "netcheck.core.panel",
        "netcheck.model.places",
    },
    ("lugs", ONE): {"netcheck.api", "netcheck.model.places"},
    ("supply", FED): {"netcheck.api", *SUPPLIED},
    ("job", ONE, WORK): {"netcheck.bench", "netcheck.sheets"},
    ("bench", ONE): {"netcheck.bench", "netcheck.sheets", *SUPPLIED},
    ("buy", WORK): {"netcheck.bench", "netcheck.compare", "netcheck.sheets", *SUPPLIED},
}


def imported(code: str, *argv: str) -> set[str]:
    """What a run of Python code has imported in the end."""
    code = f"import sys; {code}; print(*sys.modules, file=sys.stderr)"
    ran = subprocess.run([sys.executable, "-c", code, *argv], cwd=ROOT, capture_output=True, text=True, check=True)
    return set(ran.stderr.split())


@pytest.mark.parametrize("argv", MAY, ids=" ".join)
def test_a_command_imports_what_its_run_uses(argv: tuple[str, ...]) -> None:
    run = imported("from netcheck.__main__ import main; main()", *argv)
    assert "netcheck.cli" in run
    assert run & COSTLY == MAY[argv]


def test_two_equal_states_load_what_finds_that_they_are_equal_alone(tmp_path: Path) -> None:
    (tmp_path / "original.netck").write_bytes((ROOT / ONE).read_bytes())
    rewired = tmp_path / "rewired.netck"
    rewired.write_text('title "As it was"\nstate rewired\nstart from "original.netck"\n', encoding="utf-8")
    run = imported(
        "from netcheck.__main__ import main; main()", "compare", str(tmp_path / "original.netck"), str(rewired)
    )
    own = {name.removeprefix("netcheck.compare.") for name in run if name.startswith("netcheck.compare.")}
    rooms = {"by_itself", "faults", "roles", "rules", "words"}
    assert own - rooms == {
        "by_itself.volts", "faults.account", "faults.laid", "faults.outcome", "faults.series", "faults.strands", "pair",
        "roles.expected", "roles.leads", "roles.pairing", "roles.part_pair", "words.closing",
    }  # fmt: skip
    assert "heapq" not in run


def test_a_line_that_is_not_recognised_is_judged_by_lark(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.netck"
    wrong.write_text("resistor R1 470 from\n", encoding="utf-8")
    run = imported("from netcheck.cli import main; main(sys.argv[1:])", "check", str(wrong))
    assert {"lark", "netcheck.language.diagnosis"} <= run


def test_a_rare_unit_is_worked_out_by_pint() -> None:
    read = "from netcheck.language.values import quantity; assert quantity({!r}).amount"
    before = "import sys; known = set(sys.modules); import builtins; seen = []; real = builtins.__import__"
    spy = "builtins.__import__ = lambda name, *rest: (seen.append(name), real(name, *rest))[1]"
    for written, asked in (("450 V", False), ("10 nF", True)):
        code = f"{before}; {spy}; {read.format(written)}; print('pint' in seen)"
        ran = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
        assert ran.stdout.strip() == str(asked)


def test_a_kind_of_part_is_loaded_where_a_file_has_one(tmp_path: Path) -> None:
    state = tmp_path / "state.netck"
    state.write_text('title "Two parts"\nstate drawn\nresistor R1 470k\nfuse F1 1 A\n', encoding="utf-8")
    run = imported("from netcheck.cli import main; main(sys.argv[1:])", "lugs", str(state))
    loaded = {word for word in KINDS if f"netcheck.parts.{word}" in run}
    assert loaded == {"fuse", "resistor", "tube"}  # a tube's, as its socket is asked for


@pytest.mark.skipif(not Path("/proc/self/task").is_dir(), reason="threads are counted where Linux lists them")
def test_a_run_of_the_command_solves_with_one_thread() -> None:
    code = (
        "import os, sys; from netcheck.__main__ import main; main(); import numpy; "
        "print(len(os.listdir('/proc/self/task')), file=sys.stderr)"
    )
    environment = {name: value for name, value in os.environ.items() if name != "OPENBLAS_NUM_THREADS"}
    argv = [sys.executable, "-c", code, "--version"]
    ran = subprocess.run(argv, cwd=ROOT, capture_output=True, text=True, check=True, env=environment)
    assert ran.stderr.strip() == "1"
