"""Every promise about imports is broken once on purpose: a contract that keeps quiet then guards nothing."""

import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]

ENGINES = "The engines stand on the network, line safety on nothing"

# What is broken, by which module, with which line: the module it names must stand in the report of that contract.
# A module that is not there is a new one, which a contract has to hold from its first day.
BREACHES = (
    ("Imports point down to the ground floor", "core/kind", "import netcheck.matching.laying"),
    ("Imports point down to the ground floor", "matching/laying", "import netcheck.core.cut"),
    ("Imports point down to the ground floor", "reports/lines", "import netcheck.compare.pair"),
    ("Imports point down to the ground floor", "model/closure", "import netcheck.engine.rule"),
    ("Imports point down to the ground floor", "bench/branches", "import netcheck.rules.hot_chassis"),
    ("A comparison flows one way", "compare/faults/strands", "import netcheck.compare.words.describe"),
    ("A comparison flows one way", "compare/bands", "import netcheck.compare.pair"),
    (ENGINES, "electrical/fuses", "import netcheck.electrical.proof"),
    (ENGINES, "electrical/mains/line", "import netcheck.electrical.network.draft"),
    ("Only the language reads with Lark and pint", "electrical/study", "import lark"),
    ("Only the language reads with Lark and pint", "parts/resistor", "import pint"),
    ("Only model.graph knows networkx", "electrical/mains/impedance", "import networkx"),
    ("Only model.graph knows networkx", "model/wiring", "import networkx"),
    ("Only what solves networks knows numpy", "core/quantity", "import numpy"),
    ("Only what solves networks knows numpy", "compare/values", "import numpy"),
    ("Only pictures know Graphviz", "compare/permuted", "import graphviz"),
    ("Only what fills a page knows templates", "reports/terminal", "import jinja2"),
    ("Only the command line knows click", "compare/reference", "import click"),
    ("Only the machine room touches disk and processes", "compare/first_capacitor", "import subprocess"),
    ("Only the machine room touches disk and processes", "api", "import pathlib"),
    ("Only the machine room touches disk and processes", "records", "import os"),
    ("Only the machine room touches disk and processes", "repository", "import os"),
    ("Only the machine room touches disk and processes", "options", "import subprocess"),
    ("Only the machine room touches disk and processes", "settings/of_tomorrow", "import os"),
    ("A format knows no other", "reports/json_document", "import netcheck.reports.terminal"),
    ("A format knows no other", "reports/of_tomorrow", "import netcheck.reports.lines"),
    ("A format knows no other", "reports/where", "import netcheck.reports.junit"),
    ("A rule knows no other rule", "rules/spare_in_use", "import netcheck.rules.loose_lead"),
    ("A comparison rule knows no other", "compare/rules/went_round", "import netcheck.compare.rules.renamed"),
    ("A kind of part knows no other kind", "parts/fuse", "import netcheck.parts.lamp"),
)  # fmt: skip


def importer(module: str) -> str:
    return f"netcheck.{module.replace('/', '.')}"


def told_of(copy: Path) -> dict[str, str]:
    """What each contract says of a copy of the house in which every promise is broken."""
    shutil.copytree(ROOT / "netcheck", copy / "netcheck", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", copy)
    for _, module, line in BREACHES:
        path = copy / "netcheck" / f"{module}.py"
        before = path.read_text(encoding="utf-8") if path.exists() else ""
        path.write_text(f"{before}\n{line}\n", encoding="utf-8")
    (copy / "netcheck" / "of_tomorrow").mkdir()
    (copy / "netcheck" / "of_tomorrow" / "__init__.py").touch()
    run = [
        sys.executable,
        "-c",
        "from importlinter.cli import lint_imports_command; lint_imports_command()",
        "--no-cache",
    ]
    told = subprocess.run(run, cwd=copy, capture_output=True, text=True, check=False, timeout=300).stdout
    named = re.split(r"\n(.+)\n-{5,}\n", told[told.index("Broken contracts") :])
    return {name: " ".join(text.split()) for name, text in zip(named[1::2], named[2::2], strict=True)}


def test_every_broken_promise_is_told_and_every_contract_is_broken(tmp_path: Path) -> None:
    """In one test: each worker of a run would look at the copy anew, for half a minute."""
    said = told_of(tmp_path)
    unseen = [
        (contract, module, line)
        for contract, module, line in BREACHES
        if f"{importer(module)} -> {line.removeprefix('import ')}" not in said.get(contract, "")
    ]
    assert not unseen
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert set(said) == {contract["name"] for contract in pyproject["tool"]["importlinter"]["contracts"]}
    # A room that is new has to take its place among the layers.
    assert "netcheck.of_tomorrow" in said["Imports point down to the ground floor"]
