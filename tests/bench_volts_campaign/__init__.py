"""Failures of supplies, powered by the engine of the tests' own and explained from the volts of the sheet."""
