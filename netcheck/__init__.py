"""netcheck: compare the original circuit of a tube set with the chassis as rewired."""

__version__ = "0.1.0"
