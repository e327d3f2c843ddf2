"""Bad input through the whole program: a clear message with the place, exit status 2, never a traceback."""

from pathlib import Path

import pytest

from netcheck.cli import main

GOOD = """\
title "two resistors"
state {state}
{base}
resistor R1 470k
resistor R2 220k
net A: R1.1, R2.1
net B: R1.2, R2.2, chassis
"""
DRAWN = GOOD.format(state="drawn", base="")
REWIRED = GOOD.format(state="rewired", base="")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a good ``a.netck``."""
    monkeypatch.chdir(tmp_path)
    Path("a.netck").write_text(DRAWN)
    return tmp_path


BAD = {
    "empty": (b"", "b.netck:1:1: STOP: `b.netck` is empty"),
    "blank": (b"\n  \n", "b.netck:1:1: STOP: `b.netck` is empty"),
    "binary": (b"\x7fELF\x02\x01\x01\x00\x00", "netcheck: b.netck:1:8: a zero byte"),
    "noise": (bytes(range(128, 256)) * 40, "netcheck: b.netck:1:1: byte 0x80 is not UTF-8"),
    "50 MB line": (b"net A: " + b"R1.1, " * 8_400_000, "netcheck: b.netck:1:1: the line is longer than 100,000 bytes"),
    "latin-1": ('note "für"\n'.encode("latin-1"), "netcheck: b.netck:1:8: byte 0xFC is not UTF-8"),
    "includes itself": (b'include "b.netck"\n' + REWIRED.encode(), "b.netck:1:9: STOP: `b.netck` is included already"),
    "starts from itself": (b'state rewired\nstart from "b.netck"\n', "b.netck:2:12: STOP: `b.netck` leads back"),
    "missing include": (b'include "c.netck"\n' + REWIRED.encode(), "b.netck:1:9: STOP: there is no file `c.netck`"),
    "include outside": (b'include "../c.netck"\n' + REWIRED.encode(), "b.netck:1:9: STOP: `../c.netck` leads out of"),
    "control character": (b"resistor R\x1b[2J 470k\n", "b.netck:1:"),
}


@pytest.mark.parametrize(("data", "message"), BAD.values(), ids=BAD)
@pytest.mark.parametrize("command", [["check", "b.netck"], ["compare", "a.netck", "b.netck"]], ids=["check", "compare"])
def test_bad_file(command: list[str], data: bytes, message: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path("b.netck").write_bytes(data)
    assert main([*command, "--lines"]) == 2
    out, err = capsys.readouterr()
    assert message in out + err
    assert "\033" not in out + err
    assert not (out and err), "a mistake in a netlist is a finding; what is wrong with a file is a refusal"


# Every command that reads a list, with one that can't be built; those that make a file would write `out`.
UNBUILT = {
    "check": "check b.netck",
    "compare": "compare a.netck b.netck",
    "compare, into files": "compare a.netck b.netck -o out.svg -o out.dot",
    "compare a first that is wrong": "compare b.netck a.netck",
    "draw one state": "draw b.netck -o out.svg",
    "draw two": "draw a.netck b.netck -o out.svg",
    "draw two from below": "draw a.netck b.netck --underside -o out.svg",
    "draw one whole": "draw b.netck --whole -o out.svg",
    "draw two whole": "draw a.netck b.netck --whole -o out.svg",
    "lugs": "lugs b.netck",
    "lugs, as a document": "lugs b.netck --json",
    "lugs to write on": "lugs b.netck --blank -o out.html",
    "supply": "supply b.netck",
    "supply, as a document": "supply b.netck --json",
    "bench": "bench b.netck -o out.csv",
    "bench of two": "bench a.netck b.netck -o out.csv",
    "bench of a first that is wrong": "bench b.netck a.netck -o out.csv",
    "job": "job a.netck b.netck -o out.html",
    "job of a first that is wrong": "job b.netck a.netck -o out.html",
    "buy": "buy b.netck -o out.html",
    "record": "record a.netck b.netck -o out.html",
}


@pytest.mark.parametrize("call", UNBUILT.values(), ids=UNBUILT)
def test_of_a_list_that_cannot_be_built_each_command_tells_the_mistake_and_makes_nothing(
    call: str, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("b.netck").write_text(REWIRED.replace("R2.1", "R3.1"))
    assert main(call.split()) == 2
    out, err = capsys.readouterr()
    said = " ".join((out + err).split())
    assert "R3" in said
    assert "b.netck" in said
    assert "written" not in said
    assert sorted(path.name for path in Path().iterdir()) == ["a.netck", "b.netck"]


def test_a_loop_of_two_files(capsys: pytest.CaptureFixture[str]) -> None:
    for name, other in (("b", "c"), ("c", "b")):
        Path(f"{name}.netck").write_text(f'state rewired\nstart from "./{other}.netck"\n')
    assert main(["check", "b.netck", "--lines"]) == 2
    assert "c.netck:2:12: STOP: `b.netck` leads back to itself" in capsys.readouterr().out


@pytest.mark.parametrize(
    "data",
    [
        REWIRED.encode(),
        REWIRED.replace("\n", "\r\n").encode(),
        b"\xef\xbb\xbf" + REWIRED.encode(),
        b"\xef\xbb\xbf" + REWIRED.replace("\n", "\r\n").rstrip().encode(),
    ],
    ids=["plain", "CRLF", "BOM", "BOM, CRLF, no last line end"],
)
def test_line_ends_and_byte_order_marks_are_no_matter(data: bytes, capsys: pytest.CaptureFixture[str]) -> None:
    Path("b.netck").write_bytes(data)
    assert main(["compare", "a.netck", "b.netck", "--lines"]) == 0
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["plain", "BOM"])
def test_places_are_the_same_with_any_line_end(end: str, mark: str, capsys: pytest.CaptureFixture[str]) -> None:
    text = mark + REWIRED.replace("R2.1", "R3.1").replace("\n", end)
    Path("b.netck").write_bytes(text.encode())
    assert main(["check", "b.netck", "--lines"]) == 2
    assert "b.netck:6:14: STOP: " in capsys.readouterr().out
