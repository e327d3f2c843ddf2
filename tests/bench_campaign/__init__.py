"""Faults planted in a chassis, measured by a solver of the tests' own, to be named from the readings."""
