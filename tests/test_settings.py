"""Settings: what can be read, what is told of what can't, and that the schema for editors says the same."""

import json
import tomllib
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from netcheck.core.settings import STATES
from netcheck.core.source import Source
from netcheck.settings.reader import settings
from netcheck.settings.shape import ACCEPT, CHASSIS, TOP

SCHEMA = json.loads((files("netcheck.settings") / "netcheck.schema.json").read_text(encoding="utf-8"))

WHOLE = """
strict = true
outputs = [
    "reports/{chassis}.svg",   # one each
    "reports/all.sarif",
]

[chassis.skerry-5]
drawn = "skerry/drawn.netck"
found = "skerry/found.netck"
planned = 'skerry/planned.netck'
rewired = "skerry/rewired.netck"
strict = false
outputs = ["skerry/{chassis}.txt"]

[[chassis.skerry-5.accept]]
rule = "value-changed"
name = "C61"
reason = "one value bought"

[[chassis.skerry-5.accept]]
rule = "hot-chassis"
name = "R30"
reason = "knobs are insulated"

[chassis."marram"]
drawn = "marram.netck"
"""

RIGHT = (
    WHOLE,
    '[chassis.a]\nrewired = "x"\n',
    'chassis.a.found = "x y/é.netck"\n',
    '[chassis]\na = {drawn = "x.netck", accept = []}\n',
)

# Each with what is told, as line:column headline | help.
WRONG = {
    "": ("1:1 `chassis` of the settings is missing: tables, one a chassis: `[chassis.NAME]`",),
    "[chassis]": ("1:1 the settings name no chassis | add a table: `[chassis.NAME]`",),
    'outpts = 1\n[chassis.a]\ndrawn = "x"': ("1:1 there is no key `outpts` in the settings | did you mean `outputs`?",),
    '[chassis.a]\n  drwan = "x"\nfound = "y"': ("2:3 there is no key `drwan` in chassis `a` | did you mean `drawn`?",),
    '[chassis.a]\nfound = "y"\ncolour = 1': (
        f"3:1 there is no key `colour` in chassis `a` | the keys are {', '.join(CHASSIS)}",
    ),
    '[chassis.a]\nfound = "y"\nDrawn = "x"': ("3:1 there is no key `Drawn` in chassis `a` | did you mean `drawn`?",),
    "[chassis.a]": ("1:2 chassis `a` names no state | add its files: drawn, found, planned, rewired",),
    'strict = "yes"\n[chassis.a]\ndrawn = 7': (
        "1:10 `strict` of the settings is true or false",
        "3:9 `drawn` of chassis `a` is a path from this folder, with / between folder and file",
    ),
    'chassis = "a"': ("1:11 `chassis` of the settings is tables, one a chassis: `[chassis.NAME]`",),
    'chassis.a = "x"': ("1:13 chassis `a` is no table | write `[chassis.a]` above its keys",),
    '[chassis."a/b"]\ndrawn = "x"': ("1:2 `a/b` is no name for a chassis | use Latin letters, digits and . _ -",),
    '[chassis.a]\ndrawn = "x"\noutputs = ["r.txt"]': (
        "3:11 `outputs` of chassis `a` is a list of files to write, each with `{chassis}` in its path",
    ),
    'outputs = 7\n[chassis.a]\ndrawn = "x"\noutputs = 7': (
        "1:11 `outputs` of the settings is a list of files to write, inside of this folder",
        "4:11 `outputs` of chassis `a` is a list of files to write, each with `{chassis}` in its path",
    ),
    '[chassis.a]\ndrawn = "x"\naccept = 7': (
        "3:10 `accept` of chassis `a` is tables, one a finding: `[[chassis.NAME.accept]]`",
    ),
    '[chassis.a]\ndrawn = "x"\naccept = [1]': ("3:10 `accept` of chassis `a` has more than tables in it",),
    '[chassis.a]\ndrawn = "x"\n[[chassis.a.accept]]\nrule = "r"\nname = "n"\nreason = "w"\n'
    '[[chassis.a.accept]]\nrule = "r"\nnam = "n"\nreason = " "': (
        "9:1 there is no key `nam` in an accepted finding | did you mean `name`?",
        "10:10 `reason` of an accepted finding is why it is all right",
        "7:3 `name` of an accepted finding is missing: the part, lead or net that the finding names",
    ),
    # Lines of a long text are no keys and open no table; what comes after it still stands in its own.
    '[chassis.a]\ndrawn = "x"\n[[chassis.a.accept]]\nname = 7\nreason = """\nfirst\nname = 1\n[chassis.b]\n"""\n'
    "colour = 1": (
        "4:8 `name` of an accepted finding is the part, lead or net that the finding names",
        "10:1 there is no key `colour` in an accepted finding | the keys are rule, name, reason",
        "3:3 `rule` of an accepted finding is missing: the rule of a finding, as it stands in brackets behind it",
    ),
    '[chassis.a]\ndrawn = "x"\nwords = ["""\none""", \'\'\'two\n[chassis.b]\n\'\'\']\ncolour = 1': (
        f"3:1 there is no key `words` in chassis `a` | the keys are {', '.join(CHASSIS)}",
        f"7:1 there is no key `colour` in chassis `a` | the keys are {', '.join(CHASSIS)}",
    ),
    '[chassis.a]\ndrawn = "x"\noutputs = ["../{chassis}.txt"]': (
        "3:11 `outputs` of chassis `a` is a list of files to write, each with `{chassis}` in its path",
    ),
    **{
        f'outputs = ["{path}"]\n[chassis.a]\ndrawn = "x"': (
            "1:11 `outputs` of the settings is a list of files to write, inside of this folder",
        )
        for path in ("", "/etc/x.txt", "../x.txt", "a/../../x.txt", "..", "a/..", "./x.txt", "c:/x.txt", "a\\\\b.txt",
                     "a//b.txt", "a\\u001b.txt", "a/")
    },
}  # fmt: skip

BROKEN = {
    'strict = true\n[chassis.a]\ndrawn = "x\n': "3:11 this is no TOML: ",
    "strict = tru\n": "1:10 this is no TOML: invalid value",
    "[chassis": "1:9 this is no TOML: ",
    'strict = true\r\nstrict = false\r\n[chassis.a]\r\ndrawn = "x"': "2:15 this is no TOML: cannot overwrite a value",
}


def told(text: str) -> tuple[str, ...]:
    said, problems = settings(Source("netcheck.toml", text))
    assert (said is None) == bool(problems)
    assert {(d.rule, d.grade.value) for d in problems} <= {("settings", "STOP")}
    return tuple(
        f"{str(d.labels[0].place).removeprefix('netcheck.toml:')} {d.headline}{d.do and f' | {d.do}'}" for d in problems
    )


def test_everything_that_can_be_said() -> None:
    source = Source("netcheck.toml", WHOLE)
    said, problems = settings(source)
    assert said is not None
    assert problems == ()
    skerry, marram = said.chassis
    assert [one.place.text for one in said.chassis] == ["chassis.skerry-5", 'chassis."marram"']
    assert [(one.state, one.path) for one in skerry.states] == [(s, f"skerry/{s}.netck") for s in STATES]
    assert [one.place.text for one in skerry.states] == [
        '"skerry/drawn.netck"', '"skerry/found.netck"', "'skerry/planned.netck'", '"skerry/rewired.netck"',
    ]  # fmt: skip
    assert [(a.rule, a.subjects, a.reason, a.place.line) for a in skerry.accepted] == [
        ("value-changed", ("C61",), "one value bought", 16),
        ("hot-chassis", ("R30",), "knobs are insulated", 21),
    ]
    assert (said.strict_for(skerry), said.strict_for(marram)) == (False, True)
    assert said.outputs_of(skerry) == ("reports/skerry-5.svg", "skerry/skerry-5.txt")
    assert said.outputs_of(marram) == ("reports/marram.svg",)
    assert said.shared_outputs == ("reports/all.sarif",)
    assert [(one.path, one.place.line) for one in (*said.outputs, *skerry.outputs)] == [
        ("reports/{chassis}.svg", 3), ("reports/all.sarif", 3), ("skerry/{chassis}.txt", 14),
    ]  # fmt: skip


def test_what_is_not_said_is_not_asked_for() -> None:
    said, _ = settings(Source("netcheck.toml", '[chassis.a]\nrewired = "x"\n'))
    assert said is not None
    (own,) = said.chassis
    assert not said.strict_for(own)
    assert (said.outputs, own.outputs, own.accepted) == ((), (), ())


@pytest.mark.parametrize("text", RIGHT)
def test_what_is_right_is_right_by_the_schema(text: str) -> None:
    assert told(text) == ()
    Draft202012Validator(SCHEMA).validate(tomllib.loads(text))


@pytest.mark.parametrize("text", WRONG)
def test_what_is_wrong_is_told_and_wrong_by_the_schema(text: str) -> None:
    assert told(text) == WRONG[text]
    assert not Draft202012Validator(SCHEMA).is_valid(tomllib.loads(text))


@pytest.mark.parametrize("text", BROKEN)
def test_what_is_no_toml_is_told_at_its_place(text: str) -> None:
    (one,) = told(text)
    assert one.startswith(BROKEN[text])


def test_the_schema_has_the_keys_of_the_reader() -> None:
    chassis = SCHEMA["$defs"]["chassis"]
    accept = chassis["properties"]["accept"]["items"]
    for keys, table in ((TOP, SCHEMA), (CHASSIS, chassis), (ACCEPT, accept)):
        assert list(table["properties"]) == list(keys)
        assert table.get("required", []) == [name for name, key in keys.items() if key.needed]
    Draft202012Validator.check_schema(SCHEMA)


KEYS = ("strict", "outputs", "drawn", "[chassis.a]", "[[chassis.a.accept]]")
PIECES = st.sampled_from((*KEYS, *" []{}#=\n\0é", '"x"', "'''", "\r\n"))


@given(st.lists(PIECES, max_size=30).map("".join) | st.text(max_size=60))
def test_any_text_gives_values_or_places_in_it(text: str) -> None:
    source = Source("netcheck.toml", text)
    _, problems = settings(source)
    for one in problems:
        place = one.labels[0].place
        assert 0 <= place.start <= place.end <= len(text)
