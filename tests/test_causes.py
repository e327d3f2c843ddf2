"""Every slip and failure of small sets, as listed beside their netlists."""

import pytest

from tests.causes import LISTED, cases

CASES = list(cases())


@pytest.mark.parametrize(("file", "netlist", "kind", "wanted"), CASES, ids=[f"{c[0]}: {c[2]}" for c in CASES])
def test_what_can_be_wrong_is_what_is_listed(file: str, netlist: str, kind: str, wanted: str) -> None:
    assert file
    assert LISTED[kind](netlist) == wanted
