"""Writes every ``said`` block anew: ``python -m tests.whole``; what has changed is to be read, line by line."""

from tests.test_rules import FENCE
from tests.whole import FOLDER, said

__all__ = ["main"]


def main() -> None:
    """The command."""
    for path in sorted(FOLDER.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        found = FENCE.findall(text)
        for (_, original), (_, rewired), (_, before) in zip(found[::3], found[1::3], found[2::3], strict=True):
            head = f"{rewired}```\n\n```said\n"
            text = text.replace(f"{head}{before}```", f"{head}{said(original, rewired)}```")
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
