"""Writing: whole or not at all, and never over a file that netcheck did not write."""

import errno
import os
import stat
import struct
import zlib
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.errors import EnvironmentFault, UsageFault
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports import FORMATS, Style
from netcheck.system import outputs
from netcheck.system.signature import is_signed, sign

FOUND = Diagnostic("loose-lead", Grade.STOP, "C1+ is on nothing", (Label(Source("a b.netck", "x").whole),))
REPORTS = [Report("check", "t", ("a.netck",), found) for found in ((), (FOUND,))]

CHUNK = b"IHDR" + struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
PNG = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + CHUNK + struct.pack(">I", zlib.crc32(CHUNK)) + b"rest"
SVG = b'<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n<!DOCTYPE svg>\n<svg></svg>\n'


def entries(folder: Path) -> list[str]:
    return sorted(entry.name for entry in folder.iterdir())


@pytest.mark.parametrize("report", REPORTS)
@pytest.mark.parametrize("name", FORMATS)
def test_every_format_may_replace_its_own_file(tmp_path: Path, name: str, report: Report) -> None:
    path = tmp_path / "report"
    data = FORMATS[name](report, Style()).encode()
    outputs.write(path, data, overwrite=False)
    outputs.write(path, data + b"more", overwrite=False)
    assert path.read_bytes() == data + b"more"
    assert entries(tmp_path) == ["report"]


@pytest.mark.parametrize(
    ("suffix", "picture"), [(".png", PNG), (".svg", SVG), (".svg", b"<svg></svg>"), (".dot", b"graph g {\n}\n")]
)
def test_a_signed_picture_is_known(suffix: str, picture: bytes) -> None:
    assert is_signed(sign(picture, suffix))
    assert not is_signed(picture)


def test_a_signed_png_is_a_png() -> None:
    signed = sign(PNG, ".png")
    (length,) = struct.unpack(">I", signed[33:37])
    body, rest = signed[37 : 41 + length], signed[41 + length :]
    assert body == b"tEXtSoftware\0netcheck"
    assert rest == struct.pack(">I", zlib.crc32(body)) + b"rest"


@pytest.mark.parametrize(
    "text",
    [
        "# netcheck compare: a netlist\nstate found\n",
        'title "x"\n',
        "\n",
        "STOP: something\n",
        '{"generator": "other"}\n',
        "<svg></svg>",
        "a.c:1:2: LOOK: unused [-Wunused]\n",
    ],
)
def test_another_file_is_kept(tmp_path: Path, text: str) -> None:
    path = tmp_path / "notes"
    path.write_text(text)
    with pytest.raises(UsageFault, match=r"netcheck did not write it; to replace it, add --overwrite$"):
        outputs.write(path, b"new", overwrite=False)
    assert path.read_text() == text
    outputs.write(path, b"new", overwrite=True)
    assert path.read_bytes() == b"new"


def test_nothing_half_written_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "report"
    path.write_bytes(b"")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(EnvironmentFault, match=r"can't be written: no space left on device$"):
        outputs.write(path, b"new", overwrite=False)
    assert path.read_bytes() == b""
    assert entries(tmp_path) == ["report"]


def test_a_link_keeps_pointing_and_rights_stay(tmp_path: Path) -> None:
    (tmp_path / "real").touch(mode=0o600)
    (tmp_path / "link").symlink_to("real")
    outputs.write(tmp_path / "link", b"new", overwrite=False)
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real").read_bytes() == b"new"
    assert stat.S_IMODE((tmp_path / "real").stat().st_mode) == 0o600


def test_a_device_is_written_to_not_replaced() -> None:
    outputs.write(Path(os.devnull), b"new", overwrite=False)
    assert stat.S_ISCHR(Path(os.devnull).stat().st_mode)


@pytest.mark.parametrize(
    ("name", "message"),
    [
        (".", "is a folder; name the file to write"),
        ("no/report", "can't be written: there is no folder `"),
        ("file/report", "can't be written: not a directory"),
        ("x" * 300, "can't be written: file name too long"),
    ],
)
def test_where_nothing_can_be_written(tmp_path: Path, name: str, message: str) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(EnvironmentFault) as caught:
        outputs.write(tmp_path / name, b"new", overwrite=True)
    assert message in str(caught.value)
    assert entries(tmp_path) == ["file"]


def test_a_pipe_that_may_not_be_opened_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> int:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    pipe = tmp_path / "pipe.txt"
    os.mkfifo(pipe)
    monkeypatch.setattr(os, "open", refuse)  # as root, every pipe can be opened
    with pytest.raises(EnvironmentFault, match=r"pipe\.txt` can't be written: permission denied$"):
        outputs.write(pipe, b"x", overwrite=False)
