"""Where this netcheck was installed from, as another machine can name it."""

import json
from importlib.metadata import PackageNotFoundError, distribution

from netcheck import __version__

__all__ = ["requirement"]


def requirement() -> str:
    """A line for pip: the address and commit where it came from a repository, else the name and version."""
    try:
        told = distribution("netcheck").read_text("direct_url.json")
    except PackageNotFoundError:
        told = None
    origin = json.loads(told) if told else {}
    repository = origin.get("vcs_info", {})
    if not repository:
        return f"netcheck=={__version__}"
    return f"netcheck @ {repository['vcs']}+{origin['url']}@{repository['commit_id']}"
