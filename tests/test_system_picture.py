"""The sheet of findings as a file: every format, with and without an engine, told apart from other files."""

from pathlib import Path

import pytest

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.errors import EnvironmentFault
from netcheck.core.panel import End, Form, Line, Lug, Mark, Panel, PartBox, Strip
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.system import graphviz
from netcheck.system.picture import sheet_picture
from netcheck.system.signature import is_signed

PANEL = Panel(
    cards=(
        Strip("SP1", (Lug("1"), Lug("2"), Lug("3"))),
        PartBox("C52", ("20 mfd",), (End("+", "B+1"), End("-")), Form.ELECTROLYTIC),
    ),
    lines=(Line((1, "-"), (0, "2"), Mark.OFF), Line((1, "-"), (0, "3"), Mark.ON)),
)
FOUND = Diagnostic("lead-on-wrong-net", Grade.STOP, "C52- is on SP1.2", (Label(Source("x", "x").whole),), panel=PANEL)
REPORTS = [Report("compare", "a set", ("a", "b"), found) for found in ((FOUND,), ())]
BEGINNINGS = {".svg": b"<?xml ", ".png": b"\x89PNG\r\n", ".dot": b"// drawn by netcheck\ngraph "}


@pytest.mark.parametrize("report", REPORTS, ids=["one finding", "no finding"])
@pytest.mark.parametrize("suffix", BEGINNINGS)
def test_with_nothing_on_the_path(suffix: str, report: Report, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    picture = sheet_picture(report, suffix, None)
    assert picture.startswith(BEGINNINGS[suffix])
    assert is_signed(picture[:4096])
    assert picture == sheet_picture(report, suffix, None)


def test_only_a_png_needs_an_engine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(graphviz, "_installed", lambda: None)
    for suffix in (".dot", ".svg"):
        assert b"C52" in sheet_picture(REPORTS[0], suffix, None)
    with pytest.raises(EnvironmentFault, match="no drawing engine was found"):
        sheet_picture(REPORTS[0], ".png", None)


def test_an_engine_named_but_missing_is_said() -> None:
    with pytest.raises(EnvironmentFault, match="`no-such-program`, named by --engine"):
        sheet_picture(REPORTS[0], ".png", "no-such-program")
