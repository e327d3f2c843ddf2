"""Folders: where a path is from here, and where a file that the settings ask for may go."""

import os
from pathlib import Path

import pytest

from netcheck.core.errors import EnvironmentFault
from netcheck.system.folders import from_here, room_for


def test_a_path_is_told_from_the_working_folder_where_it_leads_into_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert from_here(tmp_path / "set" / "drawn.netck") == Path("set", "drawn.netck")
    assert from_here(tmp_path.parent / "drawn.netck") == tmp_path.parent / "drawn.netck"


def test_the_folders_of_a_file_are_made_once_and_again(tmp_path: Path) -> None:
    for _ in range(2):
        room_for(tmp_path / "reports" / "of" / "a.svg", tmp_path)
        assert [path.name for path in (tmp_path / "reports" / "of").iterdir()] == []


def test_outside_of_the_settings_no_folder_is_made(tmp_path: Path) -> None:
    settings = tmp_path / "settings"
    settings.mkdir()
    room_for(tmp_path / "reports" / "a.svg", settings)
    assert [path.name for path in tmp_path.iterdir()] == ["settings"]


def test_a_link_that_leads_out_of_the_folder_of_the_settings_is_not_followed(tmp_path: Path) -> None:
    settings = tmp_path / "settings"
    settings.mkdir()
    (settings / "reports").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(EnvironmentFault, match=r"leads out of the folder of the settings$"):
        room_for(settings / "reports" / "a.svg", settings)
    assert not (tmp_path / "elsewhere").exists()


def test_a_file_where_a_folder_has_to_be_is_told(tmp_path: Path) -> None:
    (tmp_path / "reports").write_text("a file")
    path = tmp_path / "reports" / "a.svg"
    with pytest.raises(EnvironmentFault) as told:
        room_for(path, tmp_path)
    assert str(told.value) == f"`{path}` can't be written: {os.strerror(17)}"  # EEXIST of POSIX
