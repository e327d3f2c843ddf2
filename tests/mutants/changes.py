"""Where a module can be changed a little, and how: each change is a stretch of its text and what replaces it."""

import ast
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

__all__ = ["Change", "changed", "changes", "compiles"]

_COMPARISONS = {
    ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">", ast.Eq: "!=", ast.NotEq: "==",
    ast.In: "not in", ast.NotIn: "in", ast.Is: "is not", ast.IsNot: "is",
}  # fmt: skip
_WRITTEN = {
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=",
    ast.In: "in", ast.NotIn: "not in", ast.Is: "is", ast.IsNot: "is not",
}  # fmt: skip

_MANY_THINGS = 1000


@dataclass(frozen=True, slots=True)
class Change:
    """One mutant: its kind, the text's half-open stretch, the new text, and the first and last line it touches."""

    kind: str
    start: int
    end: int
    text: str
    line: int
    last: int
    at_import: bool


def changed(source: str, change: Change) -> str:
    """The module with the change made."""
    return source[: change.start] + change.text + source[change.end :]


def changes(source: str) -> list[Change]:
    """Every change of a module that says something else than before; whether it compiles is asked one by one."""
    return [c for c in _Finder(source).found() if c.text != source[c.start : c.end]]


def compiles(source: str, change: Change) -> bool:
    """Whether a module is still one with the change made; that takes longer than to find a hundred changes."""
    try:
        compile(changed(source, change), "mutant", "exec")
    except (SyntaxError, ValueError):
        return False
    return True


class _Finder:
    def __init__(self, source: str) -> None:
        self._source = source
        self._tree = ast.parse(source)
        # Positions of the tree count bytes of a line, those of the text characters of the whole.
        self._lines = source.splitlines(keepends=True)
        self._starts = [0]
        for line in self._lines:
            self._starts.append(self._starts[-1] + len(line))
        self._inner = {
            id(node) for top in ast.walk(self._tree) if isinstance(top, ast.FunctionDef) for node in ast.walk(top)
        }

        self._ways: Mapping[type[ast.AST], Callable[..., Iterator[Change]]] = {
            ast.Constant: self._constant, ast.BoolOp: self._operands, ast.Compare: self._comparison,
            ast.If: self._test, ast.IfExp: self._test, ast.While: self._test, ast.comprehension: self._filters,
            ast.Call: self._call, ast.stmt: self._statement, ast.FunctionDef: self._early,
        }  # fmt: skip

    def found(self) -> Iterator[Change]:
        for node in self._visited(self._tree):
            yield from self._of(node)

    def _visited(self, node: ast.AST) -> Iterator[ast.AST]:
        """All that is worth changing: no annotations, decorators, imports, names for export, texts for readers."""
        for child in ast.iter_child_nodes(node):
            if self._is_skipped(node, child):
                continue
            yield child
            yield from self._visited(child)

    @staticmethod
    def _is_skipped(parent: ast.AST, child: ast.AST) -> bool:
        if isinstance(child, ast.Import | ast.ImportFrom | ast.JoinedStr | ast.arguments):
            return True
        if isinstance(child, ast.Assign) and any(isinstance(t, ast.Name) and t.id == "__all__" for t in child.targets):
            return True
        if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
            return True
        decorators = getattr(parent, "decorator_list", ())
        notes = (getattr(parent, "annotation", None), getattr(parent, "returns", None))
        return any(child is one for one in (*decorators, *notes))

    def _of(self, node: ast.AST) -> Iterator[Change]:
        for kind, found in self._ways.items():
            if isinstance(node, kind):
                yield from found(node)

    def _test(self, node: ast.If | ast.IfExp | ast.While) -> Iterator[Change]:
        if ast.unparse(node.test) != "TYPE_CHECKING":  # imports for the eye: run or not, they change no behaviour
            yield self._over("negated condition", node.test, f"not ({self._text(node.test)})")

    def _filters(self, node: ast.comprehension) -> Iterator[Change]:
        for test in node.ifs:
            yield self._over("dropped condition", test, "True")

    def _call(self, node: ast.Call) -> Iterator[Change]:
        # Whether a set of words can be written to makes no difference to a test.
        alone = len(node.args) == 1 and not node.keywords
        if alone and not isinstance(node.args[0], ast.Starred | ast.GeneratorExp | ast.Set):
            yield self._over("dropped call", node, self._text(node.args[0]))

    def _constant(self, node: ast.Constant) -> Iterator[Change]:
        value = node.value
        if isinstance(value, bool):
            yield self._over("changed constant", node, str(not value))
        elif isinstance(value, int | float):
            # One more of a budget of many thousands is the same budget.
            yield self._over("changed constant", node, str(value * 2 if value >= _MANY_THINGS else value + 1))
        elif isinstance(value, str) and value.strip() and "\n" not in value:
            yield self._over("changed constant", node, repr(_other(value)))

    def _operands(self, node: ast.BoolOp) -> Iterator[Change]:
        for left_out in node.values:
            kept = [f"({self._text(v)})" for v in node.values if v is not left_out]
            text = (" and " if isinstance(node.op, ast.And) else " or ").join(kept)
            yield self._over("dropped condition", node, text if len(kept) == 1 else f"({text})")

    def _comparison(self, node: ast.Compare) -> Iterator[Change]:
        sides = [self._side(side) for side in (node.left, *node.comparators)]
        for at, op in enumerate(node.ops):
            signs = [_COMPARISONS[type(o)] if o is op else _WRITTEN[type(o)] for o in node.ops]
            text = sides[0] + "".join(f" {sign} {side}" for sign, side in zip(signs, sides[1:], strict=True))
            yield self._over(f"changed comparison {_WRITTEN[type(node.ops[at])]}", node, text)

    def _side(self, side: ast.expr) -> str:
        """A side of a comparison; what stood in brackets of its own stands in them again."""
        loose = isinstance(side, ast.BoolOp | ast.IfExp | ast.Compare | ast.NamedExpr | ast.Lambda)
        return f"({self._text(side)})" if loose else self._text(side)

    def _statement(self, node: ast.stmt) -> Iterator[Change]:
        if isinstance(node, ast.Expr | ast.AugAssign) and id(node) in self._inner:
            yield self._over("dropped statement", node, "pass")
        if isinstance(node, ast.If) and isinstance(node.body[-1], ast.Return | ast.Continue) and not node.orelse:
            yield self._over("dropped guard", node, "pass")

    def _early(self, node: ast.FunctionDef) -> Iterator[Change]:
        body = [s for s in node.body if not (isinstance(s, ast.Expr) and isinstance(s.value, ast.Constant))]
        generator = any(isinstance(inner, ast.Yield | ast.YieldFrom) for inner in ast.walk(node))
        for statement in body[1:] if generator or len(body) > 2 else ():
            if not isinstance(statement, ast.Return | ast.FunctionDef):
                indent = " " * statement.col_offset
                yield self._over("returned early", statement, f"return\n{indent}{self._text(statement)}")

    def _over(self, kind: str, node: ast.expr | ast.stmt, text: str) -> Change:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        start, end = self._at(node.lineno, node.col_offset), self._at(node.end_lineno, node.end_col_offset)
        return Change(kind, start, end, text, node.lineno, node.end_lineno, id(node) not in self._inner)

    def _text(self, node: ast.expr | ast.stmt) -> str:
        return ast.get_source_segment(self._source, node) or ""

    def _at(self, line: int, column: int) -> int:
        return self._starts[line - 1] + len(self._lines[line - 1].encode()[:column].decode())


def _other(text: str) -> str:
    """Another text of the same look; what is one of a closed set of words is none of them any more."""
    return f"{text[:-1]}{'x' if text[-1] != 'x' else 'y'}"
