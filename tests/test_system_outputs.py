"""Outputs that are no plain file: devices, pipes, files of several names, and what is not netcheck's own."""

import os
import subprocess
import sys
from pathlib import Path
from threading import Thread

import pytest

from netcheck.cli import main
from netcheck.core.errors import EnvironmentFault, UsageFault
from netcheck.system.files import write

ROOT = Path(__file__).parents[1]

OWN = b"netcheck check: a.netck\n\nold\n"


def test_a_pipe_that_nobody_reads_is_told(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.txt")
    with pytest.raises(EnvironmentFault, match="nobody reads"):
        write(tmp_path / "pipe.txt", b"new", overwrite=False)


def test_a_pipe_with_a_reader_gets_all_of_it(tmp_path: Path) -> None:
    """More than a pipe holds: the writer waits for its reader."""
    pipe = tmp_path / "pipe.txt"
    os.mkfifo(pipe)
    writer = Thread(target=write, args=(pipe, b"x" * 200_000), kwargs={"overwrite": False})
    with os.fdopen(
        os.open(pipe, os.O_RDWR), "rb", buffering=0
    ) as handle:  # open both ways: it never ends before its writer comes
        writer.start()
        seen = b""
        while len(seen) < 200_000:
            seen += handle.read(200_000)
    assert seen == b"x" * 200_000
    writer.join()


def test_the_standard_output_by_its_device(tmp_path: Path) -> None:
    """Through a link whose ending says the kind; the device's own name says none."""
    (tmp_path / "out.csv").symlink_to("/dev/stdout")
    argv = (
        sys.executable,
        "-m",
        "netcheck",
        "check",
        "samples/one-can/original.netck",
        "-o",
        str(tmp_path / "out.csv"),
    )
    ran = subprocess.run(argv, capture_output=True, text=True, check=True, cwd=ROOT)
    assert ran.stdout.startswith("number,grade,rule,")
    ran = subprocess.run((*argv[:-1], "/dev/stdout"), capture_output=True, text=True, check=False, cwd=ROOT)
    assert ran.returncode == 2
    assert "the ending says what to write" in ran.stderr


def test_a_file_of_two_names_keeps_both(tmp_path: Path) -> None:
    one, other = tmp_path / "one.txt", tmp_path / "other.txt"
    one.write_bytes(OWN)
    other.hardlink_to(one)
    write(other, b"new", overwrite=False)
    assert one.read_bytes() == other.read_bytes() == b"new"


@pytest.mark.parametrize("mode", [0o600, 0o666, 0o640])
def test_the_mode_of_what_was_there_stays(tmp_path: Path, mode: int) -> None:
    """Whatever the mask for new files is."""
    (tmp_path / "one.txt").write_bytes(OWN)
    (tmp_path / "one.txt").chmod(mode)
    write(tmp_path / "one.txt", b"new", overwrite=False)
    assert (tmp_path / "one.txt").stat().st_mode & 0o777 == mode
    assert [path.name for path in tmp_path.iterdir()] == ["one.txt"]


@pytest.mark.parametrize("begins", [b"netcheck run: all is well\n", b"netcheck: started\n", b"netcheck check: "])
def test_another_program_s_log_is_not_replaced(tmp_path: Path, begins: bytes) -> None:
    (tmp_path / "log.txt").write_bytes(begins)
    with pytest.raises(UsageFault, match="did not write it"):
        write(tmp_path / "log.txt", b"new", overwrite=False)


def test_an_empty_list_is_no_output(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "new.netck").touch()
    assert main(["check", str(ROOT / "samples/one-can/original.netck"), "-o", str(tmp_path / "new.netck")]) == 2
    assert "the ending says what to write" in capsys.readouterr().err


def test_ctrl_c_is_one_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("netcheck.api.check", stopped)
    assert main(["check", str(ROOT / "samples/one-can/original.netck")]) == 130
    assert capsys.readouterr().err.strip() == "netcheck: stopped"
