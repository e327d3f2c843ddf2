"""The README of a new repository: what it tells to type can be typed."""

import re
from pathlib import Path

import pytest

from netcheck.cli import main


def test_each_command_of_its_readme_is_one_line_and_can_be_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["start", str(tmp_path / "demo"), "--kind", "can", "--title", "Marsh Lane 4"]) == 0
    monkeypatch.chdir(tmp_path / "demo")
    readme = Path("README.md").read_text(encoding="utf-8")
    prose, _, _ = re.sub(r"```sh\n.*?```", "", readme, flags=re.DOTALL).partition("## Caution")
    assert [span for span in re.findall(r"`[^`]*`", prose) if "\n" in span] == []
    typed = re.findall(r"^netcheck (.*)$", readme, re.MULTILINE)
    assert [call.split()[0] for call in typed] == ["lugs", "bench"]
    capsys.readouterr()
    assert [main(call.split()) for call in typed] == [0, 0]
