"""A word on the terminal where it takes long, and none where it does not."""

import signal
import sys
import time

import pytest

from netcheck.system import patience as patience_module
from netcheck.system.patience import patience


def test_a_word_is_said_where_it_takes_long(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(patience_module, "AFTER", 0.01)
    before = signal.getsignal(signal.SIGALRM)
    with patience("looking"):
        time.sleep(0.05)
    assert capsys.readouterr().err == ""  # nobody reads it
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    with patience("looking"):
        time.sleep(0.05)
    assert capsys.readouterr().err == "looking ...\r\033[K"
    assert signal.getsignal(signal.SIGALRM) is before
    rung: list[int] = []
    signal.signal(signal.SIGALRM, lambda number, _: rung.append(number))
    try:
        monkeypatch.setattr(patience_module, "AFTER", 0.03)
        with patience("looking"):
            pass
        time.sleep(0.06)
    finally:
        signal.signal(signal.SIGALRM, before)
    assert (capsys.readouterr().err, rung) == ("", [])  # what was done in time rings no more
