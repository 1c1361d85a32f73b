"""A practice template: a designer's own design values, letterhead, units and print habit, to begin plans with.

It is no part of a plan; what a plan takes from it stands in the plan, or beside it.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationError

from app.plan.faults import Fault, PlanRefused
from app.plan.letterhead import Letterhead, PrintHabit
from app.plan.model import Name, Part
from app.plan.practice import flatten, practice_faults
from app.plan.reading import faults_of


class Template(Part):
    """A named template; ``usual`` is the one that new plans are offered first, ``units`` null leaves a plan's own."""

    name: Name
    units: Literal["imperial", "metric"] | None = None
    practice: Annotated[
        dict[str, Any], BeforeValidator(lambda value: flatten(value) if isinstance(value, dict) else value)
    ] = Field(default_factory=dict)
    letterhead: Letterhead = Letterhead()
    habit: PrintHabit = PrintHabit()
    usual: Annotated[bool, Field(strict=True)] = False


def template_from(value: Any) -> Template:
    """The template that a JSON value says; raises ``PlanRefused`` with every fault found."""
    if not isinstance(value, dict):
        raise PlanRefused([Fault("", "a template is a JSON object with a name")])
    try:
        template = Template.model_validate(value)
    except ValidationError as error:
        raise PlanRefused(faults_of(error)) from None
    if faults := practice_faults(template.practice):
        raise PlanRefused(faults)
    return template
