"""Standard streams that are full, closed before the run or by who reads: one line at most, and a true status."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def _run(words: str, shell: str = "") -> subprocess.CompletedProcess[str]:
    """A run by a shell that says where its streams lead."""
    argv = ("sh", "-c", f'"$0" -m netcheck {words} {shell}', sys.executable)
    return subprocess.run(argv, capture_output=True, text=True, check=False, cwd=ROOT)


@pytest.mark.skipif(
    not Path("/dev/full").exists(), reason="a device that takes nothing, ever, is only had on Linux, where CI runs"
)
@pytest.mark.parametrize(
    "words", ["check samples/one-can/original.netck", "lugs samples/one-can/original.netck --json", "--help"]
)
def test_an_output_that_takes_no_more_is_one_line(words: str) -> None:
    """A traceback, and the status of a finding, once."""
    ran = _run(words, ">/dev/full")
    assert (ran.returncode, ran.stderr) == (2, "netcheck: the output can't be written: no space left on device\n")


@pytest.mark.skipif(
    not Path("/dev/full").exists(), reason="a device that takes nothing, ever, is only had on Linux, where CI runs"
)
def test_a_mistake_that_can_t_be_told_still_ends_the_run() -> None:
    assert _run("check nowhere.netck", "2>/dev/full").returncode == 2


@pytest.mark.skipif(shutil.which("sh") is None, reason="a shell of that name closes the streams before the run")
def test_a_closed_output_leaves_the_status() -> None:
    pair = "samples/one-can/original.netck samples/one-can/faulty.netck"
    ran = _run(f"compare {pair}", ">&-")
    assert (ran.returncode, ran.stderr) == (1, "")
    assert _run(f"compare {pair}", "<&- >&- 2>&-").returncode == 1
    assert _run("check nowhere.netck", "2>&-").returncode == 2


@pytest.mark.parametrize("words", ["--help", "--version", "compare --help", "why language", "completion bash", "man"])
def test_that_nobody_reads_on_is_no_fault(words: str) -> None:
    """As where the pager was left; click ends with the status of a finding there."""
    reader, writer = os.pipe()
    os.close(reader)
    argv = (sys.executable, "-m", "netcheck", *words.split())
    ran = subprocess.run(argv, stdout=writer, stderr=subprocess.PIPE, check=False, cwd=ROOT)
    os.close(writer)
    assert (ran.returncode, ran.stderr) == (0, b"")
