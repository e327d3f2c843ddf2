"""The factors of units against pint, which reads the same definitions."""

from decimal import Decimal

import pint

from netcheck.language.units import DEFINITIONS, units


def test_the_factors_are_those_of_pint() -> None:
    registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(None, non_int_type=Decimal)
    registry.load_definitions(DEFINITIONS.strip().splitlines())
    names = [line.partition(" =")[0] for line in DEFINITIONS.strip().splitlines()]
    assert [*units()] == [name.upper() for name in names]
    for name in names:
        base = registry.Quantity(Decimal(1), name).to_base_units()
        factor, dimension = units()[name.upper()]
        assert factor == Decimal(base.magnitude)
        assert dimension.value.lower().replace("/", "_per_") == str(base.units)
