"""``dataclass`` as in the standard library, but a class's functions are compiled when they are first called.

The standard decorator compiles six at once, half a millisecond a class: with 150 classes a quarter of a whole run,
which calls few of them. Readers and type checkers see the standard decorator; its ``field``, ``fields``, ``replace``
and ``asdict`` work on what is made here. There is no ``order`` and no ``InitVar``.
"""

import dataclasses
import inspect
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any, ClassVar, get_origin

__all__ = ["dataclass"]

Known = dict[str, Any]

_MISSING = dataclasses.MISSING
_KEY_ONLY = dataclasses.KW_ONLY
_FIELD = dataclasses._FIELD  # type: ignore[attr-defined]  # noqa: SLF001 - how `fields` tells them from class variables

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(*, frozen: bool = False, slots: bool = False, eq: bool = True) -> Callable[[type], type]:
        """As in the standard library."""
        return lambda cls: _made(cls, frozen=frozen, slots=slots, eq=eq)


class _Parameters:
    """What the standard decorator asks of a base that was made here."""

    def __init__(self, *, frozen: bool, eq: bool) -> None:
        self.frozen, self.eq = frozen, eq
        self.init = self.repr = True
        self.order = self.unsafe_hash = False


def _made(cls: type, *, frozen: bool, slots: bool, eq: bool) -> type:
    fields = _inherited(cls)
    for one in _own(cls):
        fields[one.name] = one
    given: dict[str, Any] = {
        "__dataclass_fields__": fields,
        "__dataclass_params__": _Parameters(frozen=frozen, eq=eq),
        "__match_args__": tuple(f.name for f in fields.values() if f.init and not f.kw_only),
        "__repr__": _shown,
    }
    if frozen:
        given |= {"__setattr__": _refused, "__delattr__": _refused}
        if slots:  # what is copied or sent to another process is put in past the refusal
            given |= {"__getstate__": _state, "__setstate__": _take_state}
    made = _slotted(cls, fields) if slots else _without_defaults(cls, fields)
    given["__init__"] = _when_called(made, "__init__", _init)
    if eq:
        given["__eq__"] = _when_called(made, "__eq__", _eq)
        given["__hash__"] = _when_called(made, "__hash__", _hash) if frozen else None
    for name, value in given.items():
        if name not in cls.__dict__:
            setattr(made, name, value)
    return made


def _inherited(cls: type) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for base in reversed(cls.__mro__[1:]):
        found |= base.__dict__.get("__dataclass_fields__", {})
    return found


def _own(cls: type) -> Iterator[Any]:
    """The fields that a class's own annotations declare."""
    key_only = False
    for name, annotation in inspect.get_annotations(cls).items():
        if annotation is _KEY_ONLY:
            key_only = True
        elif ClassVar not in (annotation, get_origin(annotation)):
            stated = cls.__dict__.get(name, _MISSING)
            one: Any = stated if isinstance(stated, dataclasses.Field) else dataclasses.field(default=stated)
            one.name, one.type, one._field_type = name, annotation, _FIELD  # noqa: SLF001
            one.kw_only = key_only if one.kw_only is _MISSING else one.kw_only
            yield one


def _slotted(cls: type, fields: dict[str, Any]) -> type:
    """The same class again, with a slot for each field that no base has one for."""
    held = {slot for base in cls.__mro__[1:-1] for slot in base.__dict__.get("__slots__", ())}
    body = {name: value for name, value in cls.__dict__.items() if name not in fields}
    body.pop("__dict__", None)
    body.pop("__weakref__", None)
    body["__slots__"] = tuple(name for name in fields if name not in held)
    made = type(cls)(cls.__name__, cls.__bases__, body)
    made.__qualname__ = cls.__qualname__
    return made


def _without_defaults(cls: type, fields: dict[str, Any]) -> type:
    """The class, where a field says its default as an attribute of the class or not at all."""
    for name, one in fields.items():
        if isinstance(cls.__dict__.get(name), dataclasses.Field):
            delattr(cls, name)
            if one.default is not _MISSING:
                setattr(cls, name, one.default)
    return cls


def _when_called(cls: Any, name: str, source: Callable[[Any], tuple[str, Known]]) -> Callable[..., Any]:  # noqa: ANN401
    """A function of a class that takes its own place, compiled, when it is first called."""

    def first(*args: object, **named: object) -> object:
        text, known = source(cls)
        exec(text, known)  # noqa: S102 - names of fields alone
        setattr(cls, name, known[name])
        return known[name](*args, **named)

    return first


def _init(cls: Any) -> tuple[str, Known]:  # noqa: ANN401 - a class with the marks of this module
    """A parameter and an assignment a field."""
    known: Known = {"_missing": _MISSING, "_put": object.__setattr__}
    frozen, plain, key_only, body = cls.__dataclass_params__.frozen, ["self"], ["*"], []
    for name, one in cls.__dataclass_fields__.items():
        value = _value(one, known)
        if value:
            body.append(f"_put(self, {name!r}, {value})" if frozen else f"self.{name} = {value}")
        if one.init:
            default = f"=_default_{name}" if f"_default_{name}" in known else ""
            (key_only if one.kw_only else plain).append(name + default)
    if hasattr(cls, "__post_init__"):
        body.append("self.__post_init__()")
    parameters = ", ".join([*plain, *(key_only if len(key_only) > 1 else [])])
    return f"def __init__({parameters}):\n  " + "\n  ".join(body or ["pass"]), known


def _value(one: Any, known: Known) -> str:  # noqa: ANN401 - a field, whose attributes are not all public
    """How a field's value is written; "" where nothing gives it one."""
    name = one.name
    if one.default_factory is not _MISSING:
        known |= {f"_factory_{name}": one.default_factory, f"_default_{name}": _MISSING}
        return f"_factory_{name}() if {name} is _missing else {name}" if one.init else f"_factory_{name}()"
    if one.default is not _MISSING:
        known[f"_default_{name}"] = one.default
    return str(name) if one.init else f"_default_{name}" if one.default is not _MISSING else ""


def _eq(cls: Any) -> tuple[str, Known]:  # noqa: ANN401 - a class with the marks of this module
    same = f"{_compared(cls, 'self')} == {_compared(cls, 'other')}"
    return f"def __eq__(self, other):\n  return {same} if other.__class__ is self.__class__ else NotImplemented", {}


def _hash(cls: Any) -> tuple[str, Known]:  # noqa: ANN401 - a class with the marks of this module
    return f"def __hash__(self):\n  return hash({_compared(cls, 'self')})", {}


def _compared(cls: Any, of: str) -> str:  # noqa: ANN401 - a class with the marks of this module
    return f"({''.join(f'{of}.{f.name}, ' for f in cls.__dataclass_fields__.values() if f.compare)})"


def _shown(self: Any) -> str:  # noqa: ANN401 - of any class that was made here
    shown = (f"{f.name}={getattr(self, f.name)!r}" for f in dataclasses.fields(self) if f.repr)
    return f"{self.__class__.__qualname__}({', '.join(shown)})"


def _refused(self: object, name: str, *_: object) -> None:
    told = f"{type(self).__name__}.{name} cannot be changed"
    raise dataclasses.FrozenInstanceError(told)


def _state(self: Any) -> list[object]:  # noqa: ANN401 - of any class that was made here
    return [getattr(self, name) for name in self.__dataclass_fields__]


def _take_state(self: Any, state: list[object]) -> None:  # noqa: ANN401 - of any class that was made here
    for name, value in zip(self.__dataclass_fields__, state, strict=True):
        object.__setattr__(self, name, value)
