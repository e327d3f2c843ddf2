"""What a check loads of the engines: nothing with numpy where nothing rectifies."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
ENGINES = sorted((ROOT / "netcheck/electrical").rglob("*.py"))
WITH_NUMPY = {
    ".".join(path.relative_to(ROOT).with_suffix("").parts)
    for path in ENGINES
    if "import numpy" in path.read_text("utf-8")
}


def _loaded(name: str) -> set[str]:
    """The engines that a check of a sample loads in a process of its own."""
    code = (
        "import sys; from netcheck.cli import main; "
        f"main(['check', {str(ROOT / 'samples' / name)!r}]); "
        "print(*[name for name in sys.modules if name.startswith('netcheck.electrical')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    return set(done.stdout.splitlines()[-1].split())


def test_check_loads_no_engine_with_numpy_where_nothing_rectifies() -> None:
    assert "netcheck.electrical.proof.peaks" in WITH_NUMPY
    assert not _loaded("one-can/original.netck") & (WITH_NUMPY | {"netcheck.electrical.network.translate"})


def test_check_loads_them_where_a_rectifier_hangs_on_the_mains() -> None:
    assert "netcheck.electrical.proof.peaks" in _loaded("skerry/original.netck")
    assert "netcheck.electrical.table.supply" not in _loaded("skerry/original.netck")
