"""What DEVELOPERS.md sends a reader to is there: commands, files, rooms; likewise the links of README.md."""

import importlib.util
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
TREES = ("netcheck", "tests", "grammar", "samples", ".ci")

RUNS = sorted(set(re.findall(r"python -m (tests[\w.]*)", PAGE)))
NAMED = sorted(set(re.findall(r"`((?:[\w.-]+/)+[\w.-]*)`", PAGE)))
# Addresses are left out: no test asks the network.
LINKS = sorted(
    (page, link)
    for page in ("README.md", "DEVELOPERS.md")
    for link in re.findall(r"\]\(([^)\s]+)\)", (ROOT / page).read_text(encoding="utf-8"))
    if "://" not in link
)


def slug(heading: str) -> str:
    """What a code host makes of a heading, so that ``#name`` can lead to it."""
    return re.sub(r"[^\w\- ]", "", heading.strip().lower()).replace(" ", "-")


def anchors(page: Path) -> set[str]:
    return {slug(line.lstrip("#")) for line in page.read_text(encoding="utf-8").splitlines() if line.startswith("#")}


@pytest.mark.parametrize("module", RUNS)
def test_a_longer_run_can_be_started(module: str) -> None:
    assert importlib.util.find_spec(module) is not None
    package = ROOT / module.replace(".", "/")
    assert (package / "__main__.py").is_file() or '__name__ == "__main__"' in package.with_suffix(".py").read_text(
        encoding="utf-8"
    )


@pytest.mark.parametrize("name", NAMED)
def test_a_file_it_names_is_there(name: str) -> None:
    """From the top, or from within ``netcheck`` as the map has it; ``<name>`` and the like are no names."""
    places = (ROOT / name, ROOT / "netcheck" / name, *(room / name for room in (ROOT / "netcheck").iterdir()))
    assert any(place.exists() for place in places)


def test_the_map_has_every_room() -> None:
    """A room of the house, or a page of its own beside the rooms, is named in the table of the map."""
    table = PAGE.partition("## The map")[2].partition("\n## ")[0]
    rooms = {
        path.stem for path in (ROOT / "netcheck").iterdir() if path.suffix == ".py" or (path / "__init__.py").exists()
    }
    assert {room for room in rooms if not re.search(rf"`(?:netcheck/)?{room}(?:\.py)?`", table)} == set()


@pytest.mark.parametrize(("page", "link"), LINKS)
def test_a_link_leads_somewhere(page: str, link: str) -> None:
    path, _, anchor = link.partition("#")
    aim = ROOT / path if path else ROOT / page
    assert aim.exists()
    assert not anchor or anchor in anchors(aim)
