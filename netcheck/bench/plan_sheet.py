"""The measuring plan as a sheet."""

from collections.abc import Mapping

from netcheck.bench.plan import Plan, Section, Step
from netcheck.core.sheet import Column, Row, Table

__all__ = ["END_OF_PLAN", "plan_tables", "unseen_words"]

_COLUMNS = (
    Column("step"), Column("red"), Column("black"), Column("expect"), Column("reading", blank=True),
    Column("why", wide=True),
)  # fmt: skip

END_OF_PLAN = (
    "No lug bent toward the chassis, no insulation cut on the edge of a hole, every new "
    "part's value readable, no dead section left connected, no solder crumbs, every joint shiny and tugged at."
)


def plan_tables(plan: Plan, readings: Mapping[int, str] | None = None) -> tuple[Table, ...]:
    """A table for each section of the plan; ``readings`` by step are written in."""
    said = readings or {}
    return tuple(_table(plan, section, said) for section in plan.sections)


def unseen_words(plan: Plan) -> str:
    """What only the eye can tell, as a sentence; empty where the meter sees all."""
    names = [f"{plan.chassis.spoken(a)} and {plan.chassis.spoken(b)}" for a, b in plan.unseen]
    return f"A bridge between {'; '.join(names)}." if names else ""


def _table(plan: Plan, section: Section, said: Mapping[int, str]) -> Table:
    rows = tuple(_row(plan, step, said) for step in section.steps)
    return Table(section.heading, _COLUMNS, rows, section.before, key=section.key)


def _row(plan: Plan, step: Step, said: Mapping[int, str]) -> Row:
    chassis = plan.chassis
    net = chassis.net_name(step.net)
    named = net not in (chassis.spoken(step.red), chassis.spoken(step.black))
    why = ": ".join(word for word in (net if named else "", step.why) if word)
    return Row(
        (
            str(step.number), chassis.spoken(step.red), chassis.spoken(step.black), step.expected.words,
            said.get(step.number, ""), why,
        )
    )  # fmt: skip
