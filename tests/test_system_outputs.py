"""Outputs that are no plain file: devices, pipes, files of several names, and what is not netcheck's own."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from threading import Thread

import pytest

from netcheck.cli import main
from netcheck.core.errors import EnvironmentFault, UsageFault
from netcheck.system.outputs import refuse_what_was_read, write

ROOT = Path(__file__).parents[1]

OWN = b"netcheck check: a.netck\n\nold\n"

CHECK = (sys.executable, "-m", "netcheck", "check", "samples/one-can/original.netck")


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
    argv = (*CHECK, "-o", str(tmp_path / "out.csv"))
    ran = subprocess.run(argv, capture_output=True, text=True, check=True, cwd=ROOT)
    assert ran.stdout.startswith("number,grade,rule,")
    ran = subprocess.run((*argv[:-1], "/dev/stdout"), capture_output=True, text=True, check=False, cwd=ROOT)
    assert ran.returncode == 2
    assert "the ending says what to write" in ran.stderr


def test_a_sheet_that_may_be_filled_in_is_not_replaced(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "plan.csv"
    argv = ["bench", str(ROOT / "samples/one-can/original.netck"), "-o", str(plan)]
    assert main(argv) == 0
    plan.write_text(plan.read_text(encoding="utf-8").replace(",,", ",0.3,", 1), encoding="utf-8")
    before = plan.read_bytes()
    assert main(argv) == 2
    assert capsys.readouterr().err.endswith(
        "plan.csv` is there already and may be filled in; to replace it, add --overwrite\n"
    )
    assert plan.read_bytes() == before


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


@pytest.mark.parametrize(
    "begins",
    [
        b"netcheck run: all is well\n",
        b"netcheck: started\n",
        b"netcheck check: ",
        b"netcheck check: nightly run\nall is well\n",
    ],
)
def test_another_program_s_log_is_not_replaced(tmp_path: Path, begins: bytes) -> None:
    (tmp_path / "log.txt").write_bytes(begins)
    with pytest.raises(UsageFault, match="did not write it"):
        write(tmp_path / "log.txt", b"new", overwrite=False)


@pytest.mark.parametrize(
    "words",
    [
        "check original", "compare original faulty", "lugs original", "supply original", "bench original",
        "buy converted", "job original converted",
    ],
)  # fmt: skip
def test_a_report_is_known_as_netcheck_s_own(words: str, tmp_path: Path) -> None:
    command, *states = words.split()
    argv = [command, *(str(ROOT / "samples/one-can" / f"{state}.netck") for state in states)]
    first = main([*argv, "-o", str(tmp_path / "out.txt")])
    assert first != 2
    assert main([*argv, "-o", str(tmp_path / "out.txt")]) == first


def test_an_empty_list_is_no_output(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "new.netck").touch()
    assert main(["check", str(ROOT / "samples/one-can/original.netck"), "-o", str(tmp_path / "new.netck")]) == 2
    assert "the ending says what to write" in capsys.readouterr().err


@pytest.mark.parametrize("device", ["/dev/stdout", "/dev/fd/1"])
@pytest.mark.parametrize("to_file", [False, True], ids=["pipe", "file"])
def test_the_standard_output_gets_the_whole_report(tmp_path: Path, device: str, *, to_file: bool) -> None:
    (tmp_path / "out.csv").symlink_to(device)
    argv = (*CHECK, "-o", str(tmp_path / "out.csv"))
    with (tmp_path / "shown").open("wb") as shown:
        stdout = shown if to_file else subprocess.PIPE
        ran = subprocess.run(argv, stdout=stdout, stderr=subprocess.PIPE, check=True, cwd=ROOT)
    text = (tmp_path / "shown").read_bytes() if to_file else ran.stdout
    assert text.startswith(b"number,grade,rule,")
    assert ran.stderr == b""
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out.csv", "shown"]


@pytest.mark.parametrize("device", ["/dev/stdout", "/dev/fd/1"])
def test_a_device_without_an_ending_is_told_why(device: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(ROOT / "samples/one-can/original.netck"), "-o", device]) == 2
    assert f"`{device}` ends in none of" in capsys.readouterr().err


def test_a_pipe_that_nobody_reads_ends_the_run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(tmp_path / "pipe.txt")
    assert main(["check", str(ROOT / "samples/one-can/original.netck"), "-o", str(tmp_path / "pipe.txt")]) == 2
    err = capsys.readouterr().err
    assert err == f"netcheck: `{tmp_path}/pipe.txt` is a pipe that nobody reads; start its reader first\n"


def test_the_owner_of_what_was_there_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only root may give a file away, so what the machine is asked for is looked at."""
    (tmp_path / "one.txt").write_bytes(OWN)
    asked: list[tuple[int, int]] = []
    monkeypatch.setattr(os, "fchown", lambda _, user, group: asked.append((user, group)))
    write(tmp_path / "one.txt", b"new", overwrite=False)
    there = (tmp_path / "one.txt").stat()
    assert asked == [(there.st_uid, there.st_gid)]


def test_an_owner_that_the_machine_does_not_give_is_no_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "one.txt").write_bytes(OWN)

    def refused(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(os, "fchown", refused)
    write(tmp_path / "one.txt", b"new", overwrite=False)
    assert (tmp_path / "one.txt").read_bytes() == b"new"


INTERRUPTED = """
import os, signal, sys
from netcheck.cli import main

def interrupted(_):
    os.kill(os.getpid(), signal.SIGINT)

signal.signal(signal.SIGINT, signal.default_int_handler)  # a run in the background has it ignored
os.fsync = interrupted
sys.exit(main(sys.argv[1:]))
"""


@pytest.mark.parametrize("before", [b"", OWN])
def test_ctrl_c_while_a_file_is_written_leaves_what_was_there(tmp_path: Path, before: bytes) -> None:
    """A true signal between the last byte and the new name: one line, 130, and no leftovers."""
    (tmp_path / "out.txt").write_bytes(before)
    argv = (sys.executable, "-c", INTERRUPTED, "check", "samples/one-can/original.netck", "-o", f"{tmp_path}/out.txt")
    ran = subprocess.run(argv, capture_output=True, text=True, check=False, cwd=ROOT)
    assert (ran.returncode, ran.stdout, ran.stderr.strip()) == (130, "", "netcheck: stopped")
    assert [path.name for path in tmp_path.iterdir()] == ["out.txt"]
    assert (tmp_path / "out.txt").read_bytes() == before


def test_ctrl_c_while_a_new_file_is_written_leaves_none(tmp_path: Path) -> None:
    argv = (sys.executable, "-c", INTERRUPTED, "check", "samples/one-can/original.netck", "-o", f"{tmp_path}/out.txt")
    assert subprocess.run(argv, capture_output=True, check=False, cwd=ROOT).returncode == 130
    assert not list(tmp_path.iterdir())


WHILE_IMPORTING = """
import os, signal, sys
from netcheck.__main__ import main

class Interrupted:
    def find_spec(self, name, *_):
        if name == "netcheck.options":
            os.kill(os.getpid(), signal.SIGINT)

signal.signal(signal.SIGINT, signal.default_int_handler)  # a run in the background has it ignored
sys.meta_path.insert(0, Interrupted())
sys.exit(main())
"""


def test_ctrl_c_before_the_command_is_loaded_is_one_line() -> None:
    argv = (sys.executable, "-c", WHILE_IMPORTING, "check", "samples/one-can/original.netck")
    ran = subprocess.run(argv, capture_output=True, text=True, check=False, cwd=ROOT)
    assert (ran.returncode, ran.stdout, ran.stderr) == (130, "", "netcheck: stopped\n")


def test_ctrl_c_is_one_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("netcheck.api.check", stopped)
    assert main(["check", str(ROOT / "samples/one-can/original.netck")]) == 130
    assert capsys.readouterr().err.strip() == "netcheck: stopped"


@pytest.mark.parametrize("link", [os.symlink, os.link], ids=["soft", "hard"])
@pytest.mark.parametrize("words", ["check", "compare", "lugs --blank", "draw"])
def test_a_netlist_by_another_name_is_never_replaced(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: str, link: Callable[[Path, Path], None]
) -> None:
    """An output that led to the original, with --overwrite, put a report in its place once."""
    for name in ("original.netck", "faulty.netck"):
        (tmp_path / name).write_bytes((ROOT / "samples/one-can" / name).read_bytes())
    original = tmp_path / "original.netck"
    typed = original.read_bytes()
    out = tmp_path / f"out.{({'lugs --blank': 'csv', 'draw': 'svg'}).get(words, 'txt')}"
    link(original, out)
    rewired = [str(tmp_path / "faulty.netck")] if words in {"compare", "draw"} else []
    assert main([*words.split(), str(original), *rewired, "-o", str(out), "--overwrite"]) == 2
    assert "original.netck`, which this run reads; name another file to write" in capsys.readouterr().err
    assert original.read_bytes() == typed


def test_a_new_file_may_be_written_by_whom_the_mask_lets_and_run_by_nobody(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        write(tmp_path / "one.txt", b"new", overwrite=False)
    finally:
        os.umask(before)
    assert (tmp_path / "one.txt").stat().st_mode & 0o777 == 0o666


def test_what_was_read_and_is_gone_again_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "out.txt").write_bytes(OWN)
    refuse_what_was_read([tmp_path / "out.txt", tmp_path / "new.txt"], [str(tmp_path / "gone.netck")])
