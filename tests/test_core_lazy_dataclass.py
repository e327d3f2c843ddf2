"""``dataclass`` of ``netcheck.core``: what the standard library's own does, on the same classes."""

import copy
import dataclasses
import pickle
from collections.abc import Callable
from typing import Any, ClassVar

import pytest

from netcheck.core import lazy_dataclass
from netcheck.core.source import Place, Source

STANDARD: Any = dataclasses.dataclass
OWN: Any = lazy_dataclass.dataclass
MADE_BY = pytest.mark.parametrize("made_by", [STANDARD, OWN], ids=["standard", "own"])
FORMS: tuple[dict[str, bool], ...] = (
    {"frozen": True, "slots": True},
    {"frozen": True, "eq": False},
    {"slots": True},
    {"frozen": True},
    {},
)


def classes(made_by: Callable[..., Callable[[type], Any]], **form: bool) -> dict[str, Any]:
    """Classes with everything that a field can be."""

    @made_by(**form)
    class Plain:
        one: int
        other: str = "other"

    @made_by(**form)
    class Wide:
        kinds: ClassVar[int] = 3
        first: int
        _: dataclasses.KW_ONLY
        many: list[int] = dataclasses.field(default_factory=list)
        hidden: int = dataclasses.field(default=7, repr=False, compare=False)
        doubled: int = dataclasses.field(init=False)
        given: int = dataclasses.field(init=False, default=5)

        def __post_init__(self) -> None:
            object.__setattr__(self, "doubled", 2 * self.first)

    @made_by(**form)
    class Below(Plain):
        more: tuple[int, ...] = ()
        other: str = "of below"

    @made_by(**form)
    class Named:
        put: int
        cls: int = 1
        MISSING: int = 2
        default_put: int = 3

    @made_by(**form)
    class Nothing:
        pass

    @made_by(**form)
    class Spoken:
        one: int

        def __repr__(self) -> str:
            return "spoken"

    return {"Plain": Plain, "Wide": Wide, "Below": Below, "Named": Named, "Nothing": Nothing, "Spoken": Spoken}


CALLS: tuple[tuple[str, tuple[object, ...], dict[str, object]], ...] = (
    ("Plain", (1,), {}),
    ("Plain", (1, "a"), {}),
    ("Plain", (), {"other": "a", "one": 1}),
    ("Plain", (), {}),
    ("Plain", (1, 2, 3), {}),
    ("Plain", (1,), {"nothing": 1}),
    ("Wide", (4,), {}),
    ("Wide", (4,), {"many": [1], "hidden": 8}),
    ("Wide", (4, [1]), {}),
    ("Wide", (4,), {"doubled": 1}),
    ("Below", (1, "a", (2,)), {}),
    ("Below", (1,), {"more": (3,)}),
    ("Named", (1,), {"default_put": 4}),
    ("Nothing", (), {}),
    ("Nothing", (1,), {}),
    ("Spoken", (1,), {}),
)


def outcome(job: Callable[[], object]) -> object:
    """What a job comes to, or which kind of error; the words of an error are each library's own."""
    try:
        return job()
    except Exception as error:  # noqa: BLE001 - which one is what is asked
        return type(error)


def refused(outcome: object) -> object:
    """A change that is refused; for a name that is no field the standard one does so by a fault of its own."""
    return dataclasses.FrozenInstanceError if outcome is TypeError else outcome


def _set(value: Any, name: str) -> object:  # noqa: ANN401 - of any class here
    setattr(value, name, 9)
    return getattr(value, name)


def _dropped(value: Any, name: str) -> object:  # noqa: ANN401 - of any class here
    delattr(value, name)
    return hasattr(value, name)


def told(made_by: Callable[..., Any], form: dict[str, bool]) -> list[object]:
    """All that can be asked of values of the classes, by value: what the two libraries must agree on."""
    known = classes(made_by, **form)
    found: list[object] = []
    for name, args, named in CALLS:

        def one(name: str = name, args: tuple[object, ...] = args, named: dict[str, object] = named) -> Any:  # noqa: ANN401
            return known[name](*args, **named)

        found.append((name, args, outcome(lambda: repr(one()).replace(classes.__qualname__, ""))))
        found.append(outcome(lambda: one() == one()))
        found.append(outcome(lambda: one() == known["Plain"](1)))
        found.append(outcome(lambda: hash(one()) == hash(one())))
        found.append(outcome(lambda: sorted(dataclasses.asdict(one()).items())))
        found.append(outcome(lambda: [f.name for f in dataclasses.fields(one())]))
        found.append(outcome(lambda: repr(dataclasses.replace(one(), one=5))))
        found.append(outcome(lambda: repr(copy.deepcopy(one()))))
        found += [refused(outcome(lambda change=change: change(one(), "one"))) for change in (_set, _dropped)]  # type: ignore[misc]
        found.append(refused(outcome(lambda: _set(one(), "unheard_of"))))
        found.append(outcome(lambda: hasattr(one(), "__dict__")))
    found += [(one.__match_args__, one.__qualname__, getattr(one, "__slots__", None)) for one in known.values()]
    found += [outcome(lambda one=one: one.other) for one in known.values() if "slots" not in form]  # type: ignore[misc]
    return found


@pytest.mark.parametrize("form", FORMS, ids=str)
def test_it_does_what_the_standard_one_does(form: dict[str, bool]) -> None:
    own, standard = told(OWN, form), told(STANDARD, form)
    for mine, theirs in zip(own, standard, strict=True):
        assert mine == theirs


@MADE_BY
def test_a_base_of_the_one_is_a_base_for_the_other(made_by: Any) -> None:  # noqa: ANN401 - a decorator
    base = classes(made_by, frozen=True, slots=True)["Plain"]
    other = STANDARD if made_by is OWN else OWN

    @other(frozen=True, slots=True)
    class Below(base):  # type: ignore[misc, valid-type]
        more: int = 0

    assert Below(1, more=2) == Below(1, "other", 2)
    assert [f.name for f in dataclasses.fields(Below)] == ["one", "other", "more"]


def test_a_function_is_compiled_when_it_is_first_called() -> None:
    plain = classes(OWN, frozen=True, slots=True)["Plain"]
    before = plain.__init__
    one = plain(1)
    assert plain.__init__ is not before
    compiled = plain.__init__
    assert plain(1) == one
    assert plain.__init__ is compiled


def test_one_that_cannot_be_changed_comes_back_from_another_process() -> None:
    place = Place(Source("a.netck", "lug A\n"), 4, 5)
    back = pickle.loads(pickle.dumps(place))  # noqa: S301 - its own
    assert (back.text, back.start, back.end) == ("A", 4, 5)
