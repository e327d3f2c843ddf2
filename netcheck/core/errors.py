"""What is wrong with the call or the machine, never with a netlist."""

__all__ = ["EnvironmentFault", "NetcheckError", "SettingsFault", "UsageFault"]


class NetcheckError(Exception):
    """Raised where a run can't do its job; caught once, in ``cli``; exit status 2."""


class UsageFault(NetcheckError):
    """The command was called in a way that can't work."""


class EnvironmentFault(NetcheckError):
    """The machine lacks something: a file, a permission, a drawing engine."""


class SettingsFault(NetcheckError):
    """A settings file can't be used."""
