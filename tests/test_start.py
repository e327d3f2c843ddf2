"""A repository to begin with: every kind is right from the first day, and its checks are those of the services."""

import math
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import yaml

from netcheck import api
from netcheck.cli import main
from netcheck.core.errors import UsageFault
from netcheck.core.source import Source
from netcheck.start.answers import CANS, KINDS, RECTIFIERS, Answers
from netcheck.start.texts import texts

BIN = Path(sys.executable).parent
HERE = os.environ | {"PATH": f"{BIN}{os.pathsep}{os.environ['PATH']}", "NO_COLOR": "1"}
USUAL = ("start", "demo", "--title", "Marsh Lane 4")


def possible() -> list[Answers]:
    """Every answer with every other, but for those that are refused."""
    found = []
    for kind, rectifier, can, on_chassis in product(KINDS, RECTIFIERS, CANS, (True, False)):
        refused = (can == "grounded" and not on_chassis) or (kind == "can" and (can == "single" or rectifier == "dry"))
        if not refused:
            found.append(Answers("Set 1", kind, rectifier, can, on_chassis))
    return found


def told(answers: Answers) -> list[str]:
    """What is told of the drawing, and of the work."""
    made = texts(answers, "netcheck")
    drawn, rewired = (Source(f"{state}.netck", made[f"set-1/{state}.netck"]) for state in ("drawn", "rewired"))

    def read(_asking: str, _written: str) -> Source:
        return drawn

    reports = (api.check(drawn, read), api.compare(drawn, rewired, read))
    assert all(report.built for report in reports)
    return [f"{d.grade.value} {d.rule}" for report in reports for d in report.diagnostics]


@pytest.mark.parametrize("answers", possible(), ids=lambda a: f"{a.kind}-{a.rectifier}-{a.can}-{a.on_chassis}")
def test_every_kind_is_right_from_the_first_day(answers: Answers) -> None:
    # Metal at line voltage is never accepted for somebody else: it is told of a set that is made so.
    hot = answers.kind == "table" and answers.on_chassis
    assert told(answers) == (["LOOK hot-chassis", "NOTE hot-chassis"] if hot else [])


@pytest.mark.parametrize("answers", possible(), ids=lambda a: f"{a.kind}-{a.rectifier}-{a.can}-{a.on_chassis}")
def test_its_readme_warns_of_what_the_set_is(answers: Answers) -> None:
    made = texts(answers, "netcheck")
    drawn = Source("drawn.netck", made["set-1/drawn.netck"])
    said = api.check(drawn, lambda _asking, _written: drawn).cautions
    assert " ".join(made["README.md"].split()).endswith(" ".join(("## Caution", *said)))


@pytest.mark.parametrize("kind", ["console", "amplifier", "doubler"])
def test_other_lines_are_as_right(kind: str) -> None:
    assert told(Answers("Set 1", kind, line="240 V")) == []
    assert "mains 240 V 50 Hz\n" in texts(Answers("Set 1", kind, line="240 V"), "")["set-1/drawn.netck"]


@pytest.mark.parametrize(
    ("line", "mains"), [("117", "117 V 60 Hz"), ("110 V 50 Hz", "110 V 50 Hz"), ("230v", "230 V 50 Hz")]
)
def test_a_line_voltage_may_be_written_short(line: str, mains: str) -> None:
    assert f"mains {mains}\n" in texts(Answers("Set 1", line=line), "")["set-1/drawn.netck"]


@pytest.mark.parametrize(
    ("kind", "volts", "hertz"), [("console", 90, 60), ("console", 199, 60), ("console", 200, 50), ("doubler", 260, 50)]
)
def test_the_first_and_last_line_of_a_kind_are_taken(kind: str, volts: int, hertz: int) -> None:
    made = texts(Answers("Set 1", kind, line=f"{volts} V"), "netcheck")
    assert f"mains {volts} V {hertz} Hz\n" in made["set-1/drawn.netck"]


# Volts of the heaters at 0.15 A: 35Z5-GT, 50C5 and 12AV6 (Receiving Tube Manual RC-30, 1975, in the order of types).
HEATERS = {"tube": 35 + 50 + 12.6, "dry": 50 + 12.6}
E12 = (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82)  # IEC 60063
WIRE_WOUND = (5, 7, 10, 15, 20, 25)  # watts that are sold


@pytest.mark.parametrize("volts", range(100, 131))
@pytest.mark.parametrize("rectifier", RECTIFIERS)
def test_the_heaters_of_a_table_set_get_their_current(rectifier: str, volts: int) -> None:
    text = texts(Answers("Set 1", "table", rectifier, line=f"{volts} V"), "netcheck")["set-1/drawn.netck"]
    said = re.search(r"^resistor R2 (\d+) ohm (\d+) W$", text, re.MULTILINE)
    assert said
    ohms, watts = map(int, said.groups())
    wanted = (volts - HEATERS[rectifier]) / 0.15
    assert ohms == min((n * 10**e for n in E12 for e in (0, 1, 2)), key=lambda value: abs(math.log(value / wanted)))
    assert watts == min(size for size in WIRE_WOUND if size >= 1.5 * 0.15**2 * ohms)


REFUSED: Mapping[str, tuple[dict[str, Any], str]] = {
    "a can that joins B- to the chassis": ({"can": "grounded", "on_chassis": False}, "joins B- to it"),
    "no can for a can": ({"kind": "can", "can": "single"}, "is about a can"),
    "a table set on 230 V": ({"kind": "table", "line": "230 V"}, "100 to 130 V, not 230 V"),
    "a line that its heaters use up": ({"kind": "table", "line": "99 V"}, "100 to 130 V, not 99 V"),
    "a table set on more than its dropper takes": ({"kind": "table", "line": "131 V"}, "not 131 V"),
    "less than any line": ({"line": "89 V"}, "90 to 260 V, not 89 V"),
    "more than any line": ({"line": "261 V"}, "90 to 260 V, not 261 V"),
    "no line": ({"line": "mains"}, "is no line voltage"),
    "a line of lightning": ({"line": "999 V"}, "90 to 260 V"),
    "a title in quotes": ({"title": 'the "Swan"'}, "without quotes"),
    "a title of two lines": ({"title": "a\nb"}, "one line"),
    "a title without a letter": ({"title": "..."}, "no Latin letter"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_does_not_go_together_is_told(case: str) -> None:
    said, words = REFUSED[case]
    with pytest.raises(UsageFault, match=words):
        Answers(**{"title": "Set 1", **said})


@pytest.fixture
def _empty(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(*argv: str, at: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(argv, cwd=at, env=HERE | more, capture_output=True, text=True, check=False)


def committed(folder: Path) -> None:
    """The folder as a repository with one commit."""
    own = ("-c", "user.name=nobody", "-c", "user.email=nobody@example.org")
    for line in (("init", "-q"), ("add", "-A"), (*own, "commit", "-q", "-m", "as begun")):
        done = run("git", *line, at=folder)
        assert done.returncode == 0, done.stderr


def steps(folder: Path) -> list[str]:
    """What the service of the workflow runs, in order; what it looks at itself before a step is left to it."""
    text = (folder / ".github/workflows/netcheck.yml").read_text(encoding="utf-8")
    return [step["run"] for step in yaml.safe_load(text)["jobs"]["chassis"]["steps"] if "run" in step]


@pytest.mark.usefixtures("_empty")
@pytest.mark.parametrize("kind", KINDS)
def test_its_checks_pass_as_the_services_run_them(kind: str) -> None:
    assert main([*USUAL, "--kind", kind]) == 0
    folder = Path("demo").resolve()
    committed(folder)
    install, look, summary = steps(folder)
    script = yaml.safe_load((folder / ".gitlab-ci.yml").read_text(encoding="utf-8"))["chassis"]["script"]
    assert script == [install, look.removesuffix(" --annotate github")]
    page = folder.parent / "summary.md"
    # The install is the same for all kinds, and finds this very netcheck.
    for line in (*((install,) if kind == "console" else ()), look, summary, script[1]):
        done = run("bash", "-e", "-c", line, at=folder, GITHUB_STEP_SUMMARY=str(page))
        assert done.returncode == 0, done.stdout + done.stderr
    assert "no findings" in page.read_text(encoding="utf-8")
    assert run("git", "status", "--porcelain", at=folder).stdout == ""
    assert sorted(path.name for path in (folder / "reports").iterdir()) == [
        "all.codequality.json", "all.md", "all.sarif", "all.xml", "marsh-lane-4.html", "marsh-lane-4.svg",
        "marsh-lane-4.txt",
    ]  # fmt: skip


@pytest.mark.usefixtures("_empty")
def test_a_planted_fault_fails_it_at_the_lines_of_both_files() -> None:
    assert main([*USUAL, "--kind", "can"]) == 0
    folder = Path("demo").resolve()
    work = folder / "marsh-lane-4/rewired.netck"
    text = work.read_text(encoding="utf-8")
    work.write_text(text.replace("plus SP9.2", "plus SP9.1"), encoding="utf-8")
    done = run("bash", "-e", "-c", steps(folder)[1], at=folder)
    assert done.returncode == 1
    here = 1 + next(n for n, line in enumerate(text.splitlines()) if line.startswith("electrolytic C12"))
    drawn = (folder / "marsh-lane-4/drawn.netck").read_text(encoding="utf-8").splitlines()
    there = 1 + next(n for n, line in enumerate(drawn) if line.startswith("net B+2:"))
    assert f"::error file=marsh-lane-4/rewired.netck,line={here}," in done.stdout
    assert f"::notice file=marsh-lane-4/drawn.netck,line={there}," in done.stdout
    assert "C12+ is on B+1 (SP9.1); it belongs on B+2" in (folder / "reports/all.md").read_text(encoding="utf-8")


@pytest.mark.usefixtures("_empty")
@pytest.mark.parametrize(
    ("schema", "file"),
    [("vendor.github-workflows", ".github/workflows/netcheck.yml"), ("vendor.gitlab-ci", ".gitlab-ci.yml")],
)
def test_the_workflows_fit_the_schemas_of_their_services(schema: str, file: str) -> None:
    assert main([*USUAL, "--kind", "can"]) == 0
    checked = run(str(BIN / "check-jsonschema"), "--builtin-schema", schema, file, at=Path("demo"))
    assert checked.returncode == 0, checked.stdout


@pytest.mark.usefixtures("_empty")
def test_the_hook_looks_before_every_commit() -> None:
    assert main([*USUAL, "--kind", "can"]) == 0
    folder = Path("demo").resolve()
    committed(folder)
    hook = (sys.executable, "-m", "pre_commit", "run", "--all-files")
    home = str(folder.parent / "hooks")
    good = run(*hook, at=folder, PRE_COMMIT_HOME=home)
    assert good.returncode == 0, good.stdout + good.stderr
    work = folder / "marsh-lane-4/rewired.netck"
    work.write_text(work.read_text(encoding="utf-8").replace("plus SP9.2", "plus SP9.1"), encoding="utf-8")
    bad = run(*hook, at=folder, PRE_COMMIT_HOME=home)
    assert bad.returncode == 1
    assert "C12+ is on B+1 (SP9.1)" in bad.stdout


@pytest.mark.usefixtures("_empty")
def test_nothing_that_is_there_is_replaced(capsys: pytest.CaptureFixture[str]) -> None:
    folder = Path("demo/marsh-lane-4")
    folder.mkdir(parents=True)
    (folder / "drawn.netck").write_text("mine\n")
    assert main([*USUAL]) == 2
    assert (
        capsys.readouterr().err == "netcheck: `demo/marsh-lane-4/drawn.netck` is there already; nothing was written\n"
    )
    assert [path.name for path in Path("demo").rglob("*")] == ["marsh-lane-4", "drawn.netck"]
    assert (folder / "drawn.netck").read_text() == "mine\n"
    shutil.rmtree("demo")
    Path("demo").mkdir()
    Path("demo/.gitignore").symlink_to("/nowhere")
    assert main([*USUAL]) == 2
    assert os.listdir("demo") == [".gitignore"]  # noqa: PTH208 - the names alone


@pytest.mark.usefixtures("_empty")
def test_only_its_script_is_a_program() -> None:
    before = os.umask(0o022)
    try:
        assert main([*USUAL]) == 0
    finally:
        os.umask(before)
    modes = {path.name: path.stat().st_mode & 0o777 for path in Path("demo").rglob("*") if path.is_file()}
    assert modes.pop("check.sh") == 0o755
    assert set(modes.values()) == {0o644}


@pytest.mark.usefixtures("_empty")
def test_what_was_written_is_taken_away_where_not_all_can_be(capsys: pytest.CaptureFixture[str]) -> None:
    Path("demo").mkdir()
    Path("demo/.github").write_text("a file where a folder is to be\n")
    assert main([*USUAL]) == 2
    assert "`demo` can't be written: " in capsys.readouterr().err
    assert [path.name for path in Path("demo").iterdir()] == [".github"]


@pytest.mark.usefixtures("_empty")
def test_what_a_service_installs_can_be_said() -> None:
    assert main([*USUAL, "--install", "./wheels/netcheck-0.1.0-py3-none-any.whl"]) == 0
    assert Path("demo/requirements.txt").read_text() == "./wheels/netcheck-0.1.0-py3-none-any.whl\n"
    assert "look where that leads" not in Path("demo/README.md").read_text(encoding="utf-8")
    # A name on an index that nobody here owns is said to be one.
    assert "look where that leads" in texts(Answers("Marsh Lane 4"), "netcheck==0.1.0")["README.md"]
