"""A module changed while it is loaded: its functions are given the code of another text, its constants other values.

To start Python, import the libraries and collect the tests takes fifty times as long as the test that most mutants die
of, so a changed text goes into a process that has all of that behind it.
"""

import ast
import gc
import sys
from collections.abc import Callable, Iterator
from functools import cache
from types import CodeType, FunctionType, ModuleType
from typing import Any

__all__ = ["CannotSwapError", "caches", "hits_noted", "private_constant", "statement_of", "swapped"]

_HIT = "__hit__"
_Cached = type(cache(len))


class CannotSwapError(Exception):
    """The change is in what was worked out at import; only a new process sees it."""


def swapped(path: str, sound: str, text: str, *, constant: str | None = None) -> None:
    """Gives the loaded module of a file the text's functions, or its value of one private constant.

    What a cache of the project keeps was worked out by the sound text, so it is forgotten.
    """
    for cached in caches():
        cached.cache_clear()
    if constant is not None:
        _give_value(path, text, constant)
        return
    before, after = compile(sound, path, "exec"), compile(text, path, "exec")
    if not _alike(_codes(before), _codes(after)):
        raise CannotSwapError(path)
    _give(path, dict(_pairs(before, after)))


def caches() -> list[Any]:
    """What the loaded modules of the project keep for the next time that it is asked for."""
    found = [one for one in gc.get_objects() if isinstance(one, _Cached)]
    return [one for one in found if str(getattr(one, "__module__", "")).startswith("netcheck.")]


def _give_value(path: str, text: str, constant: str) -> None:
    (module,) = (m for m in list(sys.modules.values()) if getattr(m, "__file__", None) == path)
    namespace = ModuleType(module.__name__)
    namespace.__dict__.update(__file__=path, __package__=module.__package__)
    exec(compile(text, path, "exec"), namespace.__dict__)  # noqa: S102 - a text of the project, changed a little
    setattr(module, constant, getattr(namespace, constant))


def hits_noted(path: str, sound: str, hit: Callable[[str], None], name: str) -> None:
    """Has the loaded functions of a file call ``hit`` with ``name:line`` of each statement that they run."""
    before = compile(sound, path, "exec")
    tree = _Noting(name).visit(ast.parse(sound))
    after = compile(ast.fix_missing_locations(tree), path, "exec")
    for function in _give(path, dict(_pairs(before, after))):
        function.__globals__[_HIT] = hit


def statement_of(tree: ast.Module, line: int, last: int) -> ast.stmt | None:
    """The innermost statement that has these lines."""
    around = [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.stmt) and node.lineno <= line and last <= (node.end_lineno or 0)
    ]
    return max(around, key=lambda node: (node.lineno, node.col_offset), default=None)


def private_constant(tree: ast.Module, statement: ast.stmt) -> str | None:
    """The one private name that a statement of a module gives a value, if only functions ask for it."""
    targets = statement.targets if isinstance(statement, ast.Assign) else [getattr(statement, "target", None)]
    if statement not in tree.body or len(targets) != 1 or not isinstance(targets[0], ast.Name):
        return None
    name = targets[0].id
    asked = (
        inner
        for other in tree.body
        if not isinstance(other, ast.FunctionDef) and other is not statement
        for inner in ast.walk(other)
    )
    is_asked = any(isinstance(inner, ast.Name) and inner.id == name for inner in asked)
    return None if is_asked or not name.startswith("_") else name


class _Noting(ast.NodeTransformer):
    def __init__(self, name: str) -> None:
        self._name = name
        self._depth = 0

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        self._depth += 1
        self.generic_visit(node)
        self._depth -= 1
        node.body = self._noted(node.body)
        return node

    def generic_visit(self, node: ast.AST) -> ast.AST:
        super().generic_visit(node)
        for field in ("body", "orelse", "finalbody"):
            inner = getattr(node, field, None)
            if self._depth and isinstance(inner, list) and inner and not isinstance(node, ast.FunctionDef):
                setattr(node, field, self._noted(inner))
        return node

    def _noted(self, statements: list[ast.stmt]) -> list[ast.stmt]:
        return [each for statement in statements for each in (self._call(statement), statement)]

    def _call(self, statement: ast.stmt) -> ast.stmt:
        call = ast.Call(ast.Name(_HIT, ast.Load()), [ast.Constant(f"{self._name}:{statement.lineno}")], [])
        return ast.copy_location(ast.Expr(call), statement)


def _codes(code: CodeType) -> list[CodeType]:
    """The codes of functions in a module and its classes, in their order; those inside a function go with it."""
    return list(_inner(code))


def _inner(code: CodeType) -> Iterator[CodeType]:
    for const in code.co_consts:
        if isinstance(const, CodeType):
            if const.co_flags & 0x2:  # of a function: it has local variables of its own
                yield const
            else:
                yield from _inner(const)


def _alike(before: list[CodeType], after: list[CodeType]) -> bool:
    return [code.co_qualname for code in before] == [code.co_qualname for code in after]


def _pairs(before: CodeType, after: CodeType) -> Iterator[tuple[tuple[str, int], CodeType]]:
    """The codes of each function and of those inside it: a decorator has made functions of these already."""
    old, new = _codes(before), _codes(after)
    if _alike(old, new):
        for one, other in zip(old, new, strict=True):
            yield _key(one), other
            yield from _pairs(one, other)


def _key(code: CodeType) -> tuple[str, int]:
    return code.co_qualname, code.co_firstlineno


def _give(path: str, codes: dict[tuple[str, int], CodeType]) -> list[FunctionType]:
    found = [f for f in gc.get_objects() if isinstance(f, FunctionType) and f.__code__.co_filename == path]
    given = []
    for function in found:
        code = codes.get(_key(function.__code__))
        if code is not None:
            if len(code.co_freevars) != len(function.__code__.co_freevars):
                raise CannotSwapError(path)
            function.__code__ = code
            given.append(function)
    return given
