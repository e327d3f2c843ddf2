"""The README shows what the program really says and does."""

import re
from pathlib import Path

import pytest

from netcheck.cli import main

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```(\w+)\n(.*?)```", README, flags=re.DOTALL)


def test_the_tour_shows_the_real_report(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    status = main(["compare", "samples/one-can/original.netck", "samples/one-can/faulty.netck", "--color", "never"])
    printed = capsys.readouterr().out
    shown = next(text for kind, text in BLOCKS if kind == "text")
    assert status == 1
    assert shown.strip() in printed


def test_the_tour_shows_the_real_supply(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    main(["supply", "samples/skerry/original.netck", "--swap", "SE1=silicon", "--color", "never"])
    printed = set(capsys.readouterr().out.splitlines())
    shown = next(text for kind, text in BLOCKS if kind == "text" and "silicon in place of" in text).splitlines()
    assert len(shown) > 20
    assert set(shown) <= printed


def test_the_tour_shows_the_sample() -> None:
    sample = (ROOT / "samples" / "one-can" / "original.netck").read_text(encoding="utf-8")
    faulty = (ROOT / "samples" / "one-can" / "faulty.netck").read_text(encoding="utf-8").splitlines()
    first, second = [text for kind, text in BLOCKS if kind == "netck"][:2]
    assert first == sample
    assert set(second.splitlines()) <= set(faulty)


def test_the_language_page_reads_without_a_syntax_message() -> None:
    from netcheck.core.source import Source
    from netcheck.language.parser import parse

    page = [text for kind, text in BLOCKS if kind == "netck"][2]
    _, problems = parse(Source("README", page))
    assert problems == ()


def test_every_command_of_the_program_is_in_the_table(capsys: pytest.CaptureFixture[str]) -> None:
    main(["--help"])
    names = re.findall(r"^  (\w+)  ", capsys.readouterr().out.partition("Commands:")[2], flags=re.MULTILINE)
    assert len(names) >= 5
    for name in names:
        assert f"`netcheck {name}" in README


def test_the_picture_is_drawn_from_the_sample(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    drawn = tmp_path / "faulty.svg"
    pair = [f"samples/harrow-point/{state}.netck" for state in ("original", "faulty")]
    main(["draw", *pair, "-o", str(drawn)])
    words = set(re.findall(r">([^<>]{3,})</text>", drawn.read_text(encoding="utf-8")))
    picture = (ROOT / "samples/harrow-point/faulty.svg").read_text(encoding="utf-8")
    kept = set(re.findall(r">([^<>]{3,})</text>", picture))
    assert words == kept
