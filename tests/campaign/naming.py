"""Names for new parts, and new names for old ones."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from random import Random

from tests.campaign.chassis import Chassis, Part, lugs_of

__all__ = ["fresh_name", "rename_some", "renew_some"]

_LETTERS = {
    "resistor": "R", "capacitor": "C", "electrolytic": "C", "diode": "D", "fuse": "F", "strip": "TP", "lug": "GS",
    "transformer": "T", "coil": "L", "choke": "L", "lamp": "LM", "speaker": "LS",
}  # fmt: skip


def fresh_name(kind: str, taken: Iterable[str], rng: Random) -> str:
    """A name that no part has, with the letter of its kind."""
    used = {name.upper() for name in taken}
    while True:
        name = f"{_LETTERS[kind]}{rng.randint(100, 999)}"
        if name not in used:
            return name


def renamed(chassis: Chassis, old: str, new: str) -> None:
    """Gives a part another name, at its leads and joints too."""
    part = chassis.parts[old]
    names = {lead: new + lead[len(old) :] for lead in part.leads}
    names.update({lug: new + lug[len(old) :] for lug in lugs_of(part)})
    chassis.parts = {
        (new if name == old else name): (
            replace(p, name=new, leads=tuple(names[lead] for lead in p.leads), members=_members(p, old, new))
            if name == old
            else p
        )
        for name, p in chassis.parts.items()
    }
    chassis.joints = [j.renamed(names) for j in chassis.joints]
    chassis.lines = tuple(_meant(line, names) for line in chassis.lines)


def _meant(line: str, names: Mapping[str, str]) -> str:
    """Where a part is meant to be is said of its leads, by their names."""
    head, colon, leads = line.partition(": ")
    if not line.startswith("meant ") or not colon:
        return line
    return f"{head}: {', '.join(names.get(lead, lead) for lead in leads.split(', '))}"


def _members(part: Part, old: str, new: str) -> tuple[str, ...]:
    return tuple(line.replace(f"winding {old} ", f"winding {new} ") for line in part.members)


def rename_some(chassis: Chassis, rng: Random) -> None:
    """New names for some of the rewired file's own parts; an acceptance's subject keeps its own."""
    for name, part in list(chassis.parts.items()):
        if part.own and name not in chassis.accepted and rng.random() < 0.5 and part.kind in _LETTERS:
            renamed(chassis, name, fresh_name(part.kind, [*chassis.parts, *chassis.gone], rng))


def renew_some(chassis: Chassis, rng: Random) -> None:
    """Some small parts of the original are taken out and replaced by an equal one of another name."""
    for name, part in list(chassis.parts.items()):
        if part.own or not part.is_free or part.kind not in ("resistor", "capacitor") or rng.random() > 0.08:
            continue
        if any(j.how == "inside" for lead in part.leads for j in chassis.joints if j.has(lead)):
            continue
        if chassis.covers & {name} or {"trimmer", "variable"} & set(part.words):
            continue
        new = fresh_name(part.kind, [*chassis.parts, *chassis.gone], rng)
        renamed(chassis, name, new)
        chassis.parts[new] = replace(chassis.parts[new], own=True, changed=False, claim="replaces", olds=(name,))
        chassis.gone[name] = ""
