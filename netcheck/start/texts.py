"""The files of a repository to begin with, as texts by their paths.

Nothing is escaped in the templates: a title with quotes or of two lines is refused. What the services install is the
address that this program came from, else its name and version; where that leads nobody here can know, so the README
says what to put there instead.
"""

import re
from collections.abc import Mapping

from netcheck.core.caution import Dangers, cautions, says_television
from netcheck.start.answers import Answers

__all__ = ["texts"]

# Where a file lies in the repository; {name} is the chassis's.
_FILES: Mapping[str, str] = {
    "README.md": "repository/readme.j2",
    "netcheck.toml": "repository/settings.j2",
    "check.sh": "repository/check.j2",
    "requirements.txt": "repository/requirements.j2",
    ".gitignore": "repository/gitignore.j2",
    ".pre-commit-config.yaml": "repository/hooks.j2",
    ".github/workflows/netcheck.yml": "repository/github.j2",
    ".gitlab-ci.yml": "repository/gitlab.j2",
    "{name}/drawn.netck": "kinds/{kind}.drawn.j2",
    "{name}/rewired.netck": "kinds/{kind}.rewired.j2",
}


def texts(answers: Answers, requirement: str) -> dict[str, str]:
    """Path to text; ``requirement`` is what a service installs netcheck from."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(  # noqa: S701 - no page is made of these, and a title is one line without quotes
        loader=PackageLoader("netcheck.start"),
        undefined=StrictUndefined,
        trim_blocks=True,
    )
    values = answers.values | {"requirement": requirement, "cautions": cautions(_dangers(answers))}
    return {
        path.format(name=answers.name): _tidy(
            environment.get_template(template.format(kind=answers.kind)).render(values)
        )
        for path, template in _FILES.items()
    }


def _dangers(answers: Answers) -> Dangers:
    """What the README warns of: a set on the line, whatever its chassis is on, selenium, a television."""
    return Dangers(
        hot=answers.kind == "table", selenium=answers.rectifier == "dry", television=says_television(answers.title)
    )


def _tidy(text: str) -> str:
    """Without the empty lines that a choice left behind."""
    return re.sub(r"\n{3,}", "\n\n", text).strip("\n") + "\n"
