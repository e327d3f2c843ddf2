"""Writes every list anew: ``python -m tests.causes``; what has changed is to be read, line by line."""

from tests.causes import FENCE, FOLDER, LISTED

__all__ = ["main"]


def main() -> None:
    """The command."""
    for path in sorted(FOLDER.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        (_, netlist), *lists = FENCE.findall(text)
        for kind, before in lists:
            text = text.replace(f"~~~{kind}\n{before}~~~", f"~~~{kind}\n{LISTED[kind](netlist)}~~~")
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
