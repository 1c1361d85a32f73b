"""Everything about a plan's cable: pulls, boxes, zones, power, bundles, each worked out once, when first asked for.

The page, the rules, the sheets and the command line all take it from here.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from app.geometry.scene import LevelScene, compile_level
from app.plan.model import Device, Level, Plan
from app.wiring.electric.power import Feed, Supply, feeds, supplies
from app.wiring.electric.sides import Surroundings
from app.wiring.electric.zones import Zone, zones_of
from app.wiring.pulls import Pull, compile_pulls
from app.wiring.routes.bundles import Bundle, bundles_of
from app.wiring.routes.run_heights import run_height
from app.wiring.schedule.schedule import Schedule, schedule_of


class Wiring:
    """The cable of one plan; ``scenes``, level scenes by id, saves compiling them again."""

    def __init__(self, plan: Plan, scenes: Mapping[str, LevelScene] | None = None) -> None:
        self.plan = plan
        self.practice = plan.practice_in_force
        self._given = scenes or {}

    @cached_property
    def scenes(self) -> Mapping[str, LevelScene]:
        """Every level's scene by its id."""
        return {level.id: self._given.get(level.id) or compile_level(level) for level in self.plan.levels}

    @cached_property
    def cans(self) -> list[tuple[Level, Device]]:
        """The cans of the plan with their levels."""
        return [(level, device) for level in self.plan.levels for device in level.devices if device.kind == "can"]

    @cached_property
    def pulls(self) -> tuple[Pull, ...]:
        """Every pull of the plan."""
        return compile_pulls(self.plan, self.scenes)

    @cached_property
    def schedule(self) -> Schedule:
        """The pulls with the boxes that they come from."""
        return schedule_of(self.plan, self.pulls)

    @cached_property
    def zones(self) -> list[Zone]:
        """The zones of every can."""
        return zones_of(self.pulls, Surroundings(self.plan, self.scenes), self.practice)

    @cached_property
    def feeds(self) -> list[Feed]:
        """How power arrives at every device that draws any."""
        return feeds(self.pulls, self.practice)

    @cached_property
    def supplies(self) -> list[Supply]:
        """What hangs on each can."""
        return supplies(self.plan, self.pulls)

    @cached_property
    def bundles(self) -> list[Bundle]:
        """The stretches that home runs share."""
        return bundles_of(self.pulls, [(level.id, run_height(level, self.practice)) for level in self.plan.levels])
