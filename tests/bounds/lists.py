"""Long lists: what is read, named and written, without a circuit behind it."""

from tests.bounds.case import Case, Files

__all__ = ["LISTS"]

CHECK = ("check", "list.netck")


def _numbers(pattern: str, size: int, between: str = "\n") -> str:
    """The pattern once a number, ``#`` in its place."""
    return between.join(pattern.replace("#", str(n)) for n in range(1, size + 1))


def _listed(*pieces: str) -> Files:
    return {"list.netck": "\n".join(("state drawn", *pieces)) + "\n"}


def _one_net(size: int) -> Files:
    """Strips of fifty lugs, all on one net; a line names fifty of them."""
    strips = [f"SP{n}" for n in range(1, size // 50 + 1)]
    lugs = [f"net long: {', '.join(f'{strip}.{lug}' for lug in range(1, 51))}" for strip in strips]
    return _listed(*(f"strip {strip} 50 lugs insulated" for strip in strips), *lugs)


def _one_net_on_strips(size: int) -> Files:
    strips = _numbers("strip SP# 2 lugs insulated", size // 2)
    return _listed(strips, _numbers("net long: SP#.1, SP#.2", size // 2))


def _dangling_comments(size: int) -> Files:
    return _listed("resistor R1 1k", "net a: R1.1,", *(f"# {n}" for n in range(size)))


def _dangling_lines(size: int) -> Files:
    return _listed("resistor R1 1k", _numbers("net a#: R1.1,", size))


def _one_long_dangling(size: int) -> Files:
    return _listed("resistor R1 1k", "net a: R1.1,", _numbers("    R1.1,", size))


def _quote_over_lines(size: int) -> Files:
    return _listed(_numbers('note "line #,', size))


def _unknown_names(size: int) -> Files:
    return _listed(_numbers("resistor R# 1k", size), _numbers("net a#: R#.1, Q#x.1", size))


def _unknown_nets(size: int) -> Files:
    known = _numbers("resistor R# 1k\nnet plate-#: R#.1, R#.2", size)
    return _listed(known, _numbers("volts palte-# 100 V", size))


def _unknown_rules(size: int) -> Files:
    return _listed("resistor R1 1k", "net a: R1.1, R1.2", _numbers('accept floating-grund-# R1 "so"', size))


def _unknown_words(size: int) -> Files:
    return _listed(_numbers("resitsor R# 1k", size))


def _doubled_names(size: int) -> Files:
    return _listed("resistor R1 1k\n" * size)


def _bad_values(size: int) -> Files:
    return _listed(_numbers("capacitor C# #M 400 V", size))


def _apart(size: int) -> Files:
    parts = _numbers("resistor R# 1k", size)
    nets = _numbers("net a#: R#.1, R#.2", size)
    return _listed(parts, nets, "apart " + _numbers("a#", size, ", "))


def _apart_joined(size: int) -> Files:
    parts = _numbers("resistor R# 1k", size)
    return _listed(parts, _numbers("net a: R#.1, R#.2", size), "apart " + _numbers("R#.1", size, ", "))


def _acceptances(size: int) -> Files:
    return _listed(_numbers('resistor R# 1k\naccept floating-ground R# "so it is"', size))


def _used_acceptances(size: int) -> Files:
    return _listed(_numbers('resistor R# 1k\nnet a#: R#.1, R#.2\naccept part-across-itself R# "so it is"', size))


def _readings(size: int) -> Files:
    return _listed("resistor R1 1k", "net a: R1.1, R1.2", _numbers("volts a # V", size))


LISTS = (
    Case("lugs of one net", 2_000, ("lugs", "list.netck"), _one_net),
    Case("lugs of one net, JSON", 2_000, ("lugs", "list.netck", "--json"), _one_net),
    Case("lugs of one net on strips", 2_000, ("lugs", "list.netck"), _one_net_on_strips),
    Case("underside of one net", 2_000, ("draw", "list.netck", "-o", "out.svg", "--overwrite"), _one_net),
    Case("continuation over comments", 8_000, CHECK, _dangling_comments, refused=True),
    Case("continuation on every line", 8_000, CHECK, _dangling_lines, refused=True),
    Case("continuation of one line", 8_000, CHECK, _one_long_dangling, refused=True),
    Case("open quotes", 8_000, CHECK, _quote_over_lines, refused=True),
    Case("unknown names", 2_000, CHECK, _unknown_names, share=4, refused=True),
    Case("unknown nets", 2_000, CHECK, _unknown_nets, share=4, refused=True),
    Case("unknown rules", 2_000, CHECK, _unknown_rules),
    Case("unknown first words", 2_000, CHECK, _unknown_words, refused=True),
    Case("one name declared again", 2_000, CHECK, _doubled_names, refused=True),
    Case("bad values", 2_000, CHECK, _bad_values, refused=True),
    Case("apart", 100, CHECK, _apart),
    Case("apart, all joined", 100, CHECK, _apart_joined),
    Case("unused acceptances", 4_000, CHECK, _acceptances),
    Case("used acceptances", 4_000, CHECK, _used_acceptances),
    Case("readings of one net", 80, CHECK, _readings),
)
