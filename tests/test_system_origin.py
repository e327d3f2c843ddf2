"""Where an installed netcheck came from, by the records of Python's packaging."""

import json
from importlib.metadata import PackageNotFoundError

import pytest
from packaging.requirements import Requirement

from netcheck import __version__
from netcheck.system import origin

# PEP 610: packaging.python.org/en/latest/specifications/direct-url-data-structure (its examples, with other addresses).
COMMIT = "7921be1537eac1e97bc40179a57f0349c2aee67d"
FROM_A_REPOSITORY = {
    "url": "https://example.org/netcheck.git",
    "vcs_info": {"vcs": "git", "requested_revision": "main", "commit_id": COMMIT},
}
ELSEWHERE = {
    "a folder": {"url": "file:///home/netcheck", "dir_info": {"editable": True}},
    "an archive": {"url": "https://example.org/netcheck.zip", "archive_info": {"hash": "sha256=2dc6b5a470"}},
    "an index": None,
}


class Installed:
    """A distribution with the record of its installer, or without."""

    def __init__(self, record: object) -> None:
        self._record = record

    def read_text(self, name: str) -> str | None:
        return json.dumps(self._record) if name == "direct_url.json" and self._record else None


def test_what_came_from_a_repository_is_named_by_its_commit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(origin, "distribution", lambda _: Installed(FROM_A_REPOSITORY))
    found = Requirement(origin.requirement())
    assert (found.name, found.url) == ("netcheck", f"git+https://example.org/netcheck.git@{COMMIT}")


@pytest.mark.parametrize("place", ELSEWHERE)
def test_what_another_machine_could_not_have_is_named_by_its_version(
    place: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(origin, "distribution", lambda _: Installed(ELSEWHERE[place]))
    found = Requirement(origin.requirement())
    assert (found.name, found.url, str(found.specifier)) == ("netcheck", None, f"=={__version__}")


def test_what_is_not_installed_is_named_by_its_version(monkeypatch: pytest.MonkeyPatch) -> None:
    def none(_: str) -> Installed:
        raise PackageNotFoundError

    monkeypatch.setattr(origin, "distribution", none)
    assert origin.requirement() == f"netcheck=={__version__}"
