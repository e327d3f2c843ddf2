"""Reading: every bad file has its sentence and its place, and nothing leads out of the repository."""

import errno
import os
import time
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Flaw
from netcheck.core.errors import EnvironmentFault
from netcheck.core.source import Source
from netcheck.system import files


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty working folder."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


BAD = {
    "latin-1": (
        'state found\nnote "20 µF, für"\n'.encode("latin-1"),
        "x.netck:2:10: byte 0xB5 is not UTF-8 (in Latin-1 it is `µ`); save it as UTF-8",
    ),
    "cut short": (
        b"state found\n# \xc3",
        "x.netck:2:3: byte 0xC3 is not UTF-8 (in Latin-1 it is `Ã`); save it as UTF-8",
    ),
    "no letter": ("é".encode() + b"\x85", "x.netck:1:2: byte 0x85 is not UTF-8; save it as UTF-8"),
    "utf-16": ("state found\n".encode("utf-16"), "x.netck:1:1: the file is in UTF-16; save it as UTF-8"),
    "binary": (b"\x89PNG\r\n\x1a\n\x00\x00", "x.netck:3:1: a zero byte; this is not a text file"),
    "zero first": (b"\0state found\n", "x.netck:1:1: a zero byte; this is not a text file"),
    "long second line": (
        b"\n" + b"x" * 100_001,
        "x.netck:2:1: the line is longer than 100,000 bytes; is this a netlist?",
    ),
    "long line": (
        b"state found\n# short\n# " + b"x" * 200_000,
        "x.netck:3:1: the line is longer than 100,000 bytes; is this a netlist?",
    ),
    "large": (b"# short\n" * 2_100_000, "x.netck:1:1: the file is larger than 16 MB; is this a netlist?"),
}


@pytest.mark.parametrize(("data", "message"), BAD.values(), ids=BAD)
def test_bad_file(here: Path, data: bytes, message: str) -> None:
    (here / "x.netck").write_bytes(data)
    with pytest.raises(EnvironmentFault) as caught:
        files.read("x.netck")
    assert str(caught.value) == message


def test_a_line_of_50_mb_is_refused_quickly(here: Path) -> None:
    with (here / "x.netck").open("wb") as handle:
        handle.write(b"net A: " + b"R1.1, " * 8_400_000)
    before = time.process_time()
    with pytest.raises(EnvironmentFault, match=r"^x\.netck:1:1: the line is longer than 100,000 bytes"):
        files.read("x.netck")
    assert time.process_time() - before < 5, "the line was looked through more than once"


@pytest.mark.parametrize(
    "data",
    [b"x" * 100_000, (b"x" * 100_000 + b"\n") * 3, b"\n" * 300_000, b"", b"# short\n" * 2_000_000],
    ids=["one line", "three lines", "empty lines", "nothing", "16 MB"],
)
def test_files_at_the_limit_are_read(here: Path, data: bytes) -> None:
    (here / "x.netck").write_bytes(data)
    assert files.read("x.netck").text == data.decode()


def test_byte_order_mark_goes_and_line_endings_stay(here: Path) -> None:
    (here / "x.netck").write_bytes(b"\xef\xbb\xbfstate found\r\nnet A: B\r")
    assert files.read("x.netck").text == "state found\r\nnet A: B\r"


def test_missing_file_has_a_near_name(here: Path) -> None:
    (here / "original.netck").touch()
    with pytest.raises(EnvironmentFault, match=r"^there is no file `orignal.netck`; did you mean `original.netck`\?$"):
        files.read("orignal.netck")
    with pytest.raises(EnvironmentFault, match=r"^there is no file `sets/x.netck` \(nor a folder `sets`\)$"):
        files.read("sets/x.netck")


def test_folder_names_the_netlists_in_it(here: Path) -> None:
    (here / "set").mkdir()
    with pytest.raises(EnvironmentFault, match=r"^`set` is a folder, not a netlist$"):
        files.read("set")
    (here / "set/b.netck").touch()
    (here / "set/a.netck").touch()
    with pytest.raises(EnvironmentFault, match=r"`set` is a folder, not a netlist; in it are `a.netck`, `b.netck`$"):
        files.read("set")
    for more in "edc":
        (here / f"set/{more}.netck").touch()
    with pytest.raises(EnvironmentFault, match=r"in it are `a.netck`, `b.netck`, `c.netck`, `d.netck`$"):
        files.read("set")  # enough to see which are meant


def test_unreadable(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (here / "x.netck").touch(mode=0o000)
    if os.access("x.netck", os.R_OK):  # as root, every file is readable

        def refuse(path: str, mode: str) -> None:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), f"{path} {mode}")

        monkeypatch.setattr(files, "open", refuse, raising=False)
    with pytest.raises(EnvironmentFault, match=r"^`x.netck` can't be read: permission denied$"):
        files.read("x.netck")


def test_a_name_with_a_zero_character(here: Path) -> None:
    with pytest.raises(EnvironmentFault, match=r"can't be read: embedded null byte$"):
        files.read(str(here / "a\0b"))


def test_an_empty_name_as_of_a_variable_that_is_not_set_is_the_working_folder(here: Path) -> None:
    (here / "a.netck").touch()
    with pytest.raises(EnvironmentFault, match=r"^`` is a folder, not a netlist; in it are `a.netck`$"):
        files.read("")


def test_one_file_has_one_name(here: Path) -> None:
    (here / "a").mkdir()
    (here / "a/x.netck").touch()
    (here / "y.netck").symlink_to("a/x.netck")
    spellings = ("a/x.netck", "./a/../a//x.netck", str(here / "a/x.netck"), "y.netck")
    assert {files.read(path).name for path in spellings} == {"a/x.netck"}


def test_outside_of_the_working_folder_the_name_is_whole(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (here / "x.netck").touch()
    (here / "deep").mkdir()
    monkeypatch.chdir(here / "deep")
    assert files.read("../x.netck").name == str(here.resolve() / "x.netck")


@pytest.fixture
def shelf(here: Path) -> Path:
    """``secret.netck`` and a folder ``repo`` with ``parts/basings.netck`` and ``set/original.netck``."""
    for name in ("secret.netck", "repo/parts/basings.netck", "repo/set/original.netck", "repo/set/rewired.netck"):
        (here / name).parent.mkdir(parents=True, exist_ok=True)
        (here / name).write_text(f"# {name}\n")
    return here


def test_includes_reach_the_whole_repository(shelf: Path) -> None:
    (shelf / "repo/.git").mkdir()
    read = files.reader(Path("repo/set/rewired.netck"))
    found = read("repo/set/rewired.netck", "../parts/basings.netck")
    assert isinstance(found, Source)
    assert (found.name, found.text) == ("repo/parts/basings.netck", "# repo/parts/basings.netck\n")
    assert read("repo/parts/basings.netck", "../set/../parts/basings.netck") is found


def test_without_a_repository_they_reach_the_folder(shelf: Path) -> None:
    read = files.reader(shelf / "repo/set/rewired.netck")
    assert isinstance(read("repo/set/rewired.netck", "original.netck"), Source)
    assert read("repo/set/rewired.netck", "../parts/basings.netck") == Flaw(
        "`../parts/basings.netck` leads out of the folder `set`", "keep what a netlist refers to inside of it"
    )


def test_folders_of_both_files_named_are_open(shelf: Path) -> None:
    sources = (files.read("repo/parts/basings.netck"), files.read("repo/set/rewired.netck"))
    read = files.reader(*sources)
    assert read("repo/set/rewired.netck", "../parts/basings.netck") is sources[0]
    assert isinstance(read("repo/set/rewired.netck", "../../secret.netck"), Flaw)
    assert (shelf / "secret.netck").exists()


def test_what_leads_out_is_told_of_the_folder_that_the_asking_file_is_in(shelf: Path) -> None:
    """However the folder is come to: here by a link beside it."""
    (shelf / "beside").symlink_to("repo/set")
    read = files.reader(Path("repo/parts/basings.netck"), Path("repo/set/rewired.netck"))
    for asking, folder in (("beside/rewired.netck", "set"), ("repo/parts/basings.netck", "parts")):
        assert read(asking, "../../secret.netck") == Flaw(
            f"`../../secret.netck` leads out of the folder `{folder}`", "keep what a netlist refers to inside of it"
        )


def test_the_root_is_a_folder_and_not_the_working_one(here: Path) -> None:
    (here / "a.netck").touch()
    with pytest.raises(EnvironmentFault, match=r"^`/` is a folder, not a netlist"):
        files.read("/")
    with pytest.raises(EnvironmentFault) as told:
        files.read("/")
    assert "a.netck" not in str(told.value)


def test_the_folders_of_files_are_each_there_once(shelf: Path) -> None:
    (shelf / "repo/.git").mkdir()
    asked = ("repo/set/original.netck", "secret.netck", "repo/parts/basings.netck")
    assert [str(folder) for folder in files.roots(asked)] == [str(shelf / "repo"), str(shelf)]
    assert [str(folder) for folder in files.roots(())] == [str(shelf)]


@pytest.mark.parametrize(
    ("written", "headline"),
    [
        ("/etc/passwd", "`/etc/passwd` is an absolute path"),
        ("C:/set.netck", "`C:/set.netck` is an absolute path"),
        ("c:set.netck", "`c:set.netck` is an absolute path"),
        ("1:set.netck", "there is no file `1:set.netck`"),
        ("..\\secret.netck", "`..\\secret.netck` has a backslash"),
        ("../../secret.netck", "`../../secret.netck` leads out of the folder `repo`"),
        ("link.netck", "`link.netck` leads out of the folder `repo`"),
        ("out/secret.netck", "`out/secret.netck` leads out of the folder `repo`"),
        ("../../no-such-file", "`../../no-such-file` leads out of the folder `repo`"),
        ("a\0b", "no file has such a name"),
        ("", "no file has such a name"),
        (
            ".",
            "`.` is a folder, not a netlist; in it are `link.netck`, `loop.netck`, `original.netck`, `rewired.netck`",
        ),
        ("pipe", "`pipe` is not an ordinary file"),
        ("loop.netck", "`loop.netck` can't be read: too many levels of symbolic links"),
        ("orignal.netck", "there is no file `orignal.netck`; did you mean `original.netck`?"),
        ("x" * 300, f"`{'x' * 300}` can't be read: file name too long"),
    ],
)
def test_refused_paths(shelf: Path, written: str, headline: str) -> None:
    (shelf / "repo/.git").mkdir()
    (shelf / "repo/set/link.netck").symlink_to(shelf / "secret.netck")
    (shelf / "repo/set/out").symlink_to(shelf)
    (shelf / "repo/set/loop.netck").symlink_to("loop.netck")
    os.mkfifo(shelf / "repo/set/pipe")
    found = files.reader(Path("repo/set/rewired.netck"))("repo/set/rewired.netck", written)
    assert isinstance(found, Flaw)
    assert found.headline == headline


def test_a_bad_included_file_keeps_its_place(shelf: Path) -> None:
    (shelf / "repo/set/original.netck").write_bytes(b"# ok\n# \xff")
    found = files.reader(Path("repo/set/rewired.netck"))("repo/set/rewired.netck", "original.netck")
    assert isinstance(found, Flaw)
    assert found.headline.startswith("repo/set/original.netck:2:3: byte 0xFF is not UTF-8")
