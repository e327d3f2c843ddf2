"""A mend is an order at the bench, whatever its acts are."""

from typing import get_args

import pytest

from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Put, Remove, Solder, Wire, spoken

ORDERS = {
    Lift("C1.1"): "take C1.1 off all that it is on",
    Put("C1.1", "SP1.2"): "move C1.1 to SP1.2",
    Solder("C1.1", "SP1.2"): "solder C1.1 to SP1.2",
    Cut("SP1.1", "SP1.2"): "undo the joint between SP1.1 and SP1.2",
    Wire("SP1.1", "SP2.1"): "run a wire from SP1.1 to SP2.1",
    Wire("SP1.1", "SP2.1", "red 20 AWG"): "run a wire from SP1.1 to SP2.1 red 20 AWG",
    Bond("SP1"): "join SP1 to the chassis by its mounting",
    Insulate("SP1"): "keep SP1 off the chassis",
    Change("R1", "2.2k 1 W"): "fit R1 of 2.2k 1 W",
    Change("R1", ""): "fit another R1",
    Remove("R1"): "take R1 out",
}


@pytest.mark.parametrize("act", ORDERS, ids=ORDERS.values())
def test_an_act_is_said_as_an_order(act: Act) -> None:
    assert spoken((act,)) == (ORDERS[act],)


def test_every_act_can_be_said() -> None:
    assert {type(act) for act in ORDERS} == set(get_args(Act))
