"""Writes what every call prints anew: ``python -m tests.printed``; what has changed is to be read, line by line."""

import os
import tempfile
from pathlib import Path

from tests.printed import FOLDER, cases, printed

__all__ = ["main"]


def main() -> None:
    """The command."""
    for path in sorted(FOLDER.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        for case in [one for one in cases() if one.name.startswith(f"{path.stem}: ")]:
            with tempfile.TemporaryDirectory() as folder:
                os.chdir(folder)
                for name, said in case.files:
                    Path(name).write_text(said, encoding="utf-8")
                now = printed(case.call, Path(folder))
                os.chdir(FOLDER)
            head = f"~~~call\n{case.call}\n~~~\n\n~~~printed\n"
            assert text.count(head) == 1, case.name
            text = text.replace(f"{head}{case.wanted}~~~", f"{head}{now}~~~")
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
