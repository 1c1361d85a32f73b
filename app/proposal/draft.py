"""The first pass: a bare plan becomes a sound design of devices, each proposed with its reason.

Pure but for the time limits of the solver: plan in, proposals out. What the designer placed is kept as it is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from app.plan.model import Plan
from app.proposal.cans import propose_can
from app.proposal.contacts import propose_contacts
from app.proposal.glass_breaks import LevelGlass, Unreachable, propose_glass_breaks, unheard
from app.proposal.keypads import propose_keypads
from app.proposal.labels import labelled
from app.proposal.motions import propose_motions
from app.proposal.proposals import Numbering, Proposal
from app.proposal.risers import RiserProposal, propose_risers
from app.proposal.sirens import propose_sirens
from app.review.house import House

SECONDS = 40.0  # for the solver, over the whole plan

Progress = Callable[[float, str], None]
Stop = Callable[[], bool]


@dataclass(frozen=True)
class FewestProof:
    """How few glass breaks can do on the ceilings, given those that stand already.

    ``proposed`` hang on ceilings; no fewer than ``lower_bound`` cover the same panes; ``optimal`` where they are equal
    and the bound holds over every ceiling place (``exact``), else ``gap`` is how many fewer might do. ``on_walls``
    count the mounts for panes that no ceiling place covers.
    """

    panes: int
    kept: int
    proposed: int
    on_walls: int
    lower_bound: int
    exact: bool
    places: int

    @property
    def gap(self) -> int:
        """How many fewer detectors might do, as far as is proven."""
        return max(0, self.proposed - self.lower_bound)

    @property
    def optimal(self) -> bool:
        """Whether it is proven that no fewer detectors do."""
        return self.exact and self.gap == 0

    @property
    def words(self) -> str:
        """The proof as a sentence."""
        if not self.panes:
            return "Every exterior pane is covered already; no glass break is proposed."
        count = f"{self.proposed} glass break{'' if self.proposed == 1 else 's'} on ceilings for {self.panes} panes"
        bound = f"proven lower bound {self.lower_bound}"
        if self.optimal:
            verdict = f"{bound}, so no fewer can do (each forgives half an inch)"
        elif self.exact:
            verdict = f"{bound}, gap {self.gap}: up to {self.gap} fewer might do"
        else:
            verdict = f"bound {self.lower_bound} not proven, as less than whole panes is asked for"
        walls = f"; {self.on_walls} more on walls" if self.on_walls else ""
        return f"{count}{walls}; {verdict}."


@dataclass(frozen=True)
class Draft:
    """The plan with every proposal taken, the proposals one by one, and what is proven of the glass breaks.

    ``risers`` are proposed where devices would else have no way to the can.
    ``unreachable`` are panes that no ceiling place covers, ``untried`` those left over when the pass was stopped.
    """

    plan: Plan
    proposals: tuple[Proposal, ...]
    risers: tuple[RiserProposal, ...]
    proof: FewestProof
    unreachable: tuple[Unreachable, ...]
    untried: tuple[str, ...]

    @property
    def covers_all(self) -> bool:
        """Whether every exterior pane is covered once all proposals are taken."""
        return not self.untried and all(one.instead is not None for one in self.unreachable)


def draft_plan(
    plan: Plan, *, progress: Progress | None = None, stop: Stop | None = None, seconds: float = SECONDS
) -> Draft:
    """Propose devices for a plan.

    ``progress`` is told the share done and at what; when ``stop`` says so the pass ends with what it has found.
    ``seconds`` bound the solver; a proof cut short tells its gap.
    """
    tell = progress or _silent
    halt = stop or _never
    house, numbering = House(plan), Numbering(plan)
    tell(0.0, "contacts")
    proposals = propose_contacts(house, numbering)
    levels = _glass(house, numbering, tell, halt, seconds)
    proposals += [proposal for level in levels for proposal in level.proposals]
    tell(0.9, "motion detectors, keypads, can and sirens")
    if not halt():
        proposals += propose_motions(house, numbering)
        proposals += propose_keypads(house, numbering)
        proposals += propose_can(house, numbering)
        proposals += propose_sirens(House(with_proposals(plan, proposals)), numbering)
    proposals = labelled(plan, proposals)
    furnished = with_proposals(plan, proposals)
    risers = propose_risers(furnished, house, numbering)
    tell(1.0, "done")
    return Draft(
        with_risers(furnished, risers),
        tuple(proposals),
        tuple(risers),
        _proof(house, levels),
        tuple(pane for level in levels for pane in level.unreachable),
        tuple(_untried(house, levels)),
    )


def contacts_answer(house: House) -> dict[str, Any]:
    """The contacts of a first pass alone, as JSON says them, each with its opening and the room behind that."""
    proposals = labelled(house.plan, propose_contacts(house, Numbering(house.plan)))
    return {
        "proposals": [
            {
                "level": one.level,
                "room": house.storeys[one.level].scene.room_of_opening(one.device.serves[0]),
                "device": one.device.model_dump(mode="json"),
                "reason": one.reason,
            }
            for one in proposals
        ]
    }


def with_proposals(plan: Plan, proposals: Iterable[Proposal]) -> Plan:
    """The plan with some proposals taken: each device at the end of its level's."""
    taken: dict[str, list[Any]] = {}
    for proposal in proposals:
        taken.setdefault(proposal.level, []).append(proposal.device)
    levels = tuple(
        level.model_copy(update={"devices": (*level.devices, *taken[level.id])}) if level.id in taken else level
        for level in plan.levels
    )
    return plan.model_copy(update={"levels": levels})


def with_risers(plan: Plan, risers: Iterable[RiserProposal]) -> Plan:
    """The plan with some risers taken."""
    return plan.model_copy(update={"risers": (*plan.risers, *(one.riser for one in risers))})


def draft_answer(draft: Draft) -> dict[str, Any]:
    """A draft as JSON says it, without the plan: proposals, proof, unreachable and untried panes."""
    proof = draft.proof
    return {
        "proposals": [
            {
                "level": one.level,
                "device": one.device.model_dump(mode="json"),
                "reason": one.reason,
                "covers": list(one.covers),
            }
            for one in draft.proposals
        ],
        "risers": [
            {"riser": one.riser.model_dump(mode="json", by_alias=True), "reason": one.reason} for one in draft.risers
        ],
        "proof": {
            "panes": proof.panes,
            "kept": proof.kept,
            "proposed": proof.proposed,
            "on_walls": proof.on_walls,
            "lower_bound": proof.lower_bound,
            "optimal": proof.optimal,
            "gap": proof.gap,
            "exact": proof.exact,
            "words": proof.words,
        },
        "unreachable": [
            {"pane": one.pane, "level": one.level, "why": one.why, "instead": one.instead} for one in draft.unreachable
        ],
        "untried": list(draft.untried),
    }


def _glass(house: House, numbering: Numbering, tell: Progress, halt: Stop, seconds: float) -> list[LevelGlass]:
    wanted = {storey.level.id: unheard(storey) for storey in house}
    total = max(1, sum(map(len, wanted.values())))
    done, levels = 0, []
    for storey in house:
        panes = wanted[storey.level.id]

        def onward(share: float, before: int = done, count: int = len(panes), name: str = storey.level.name) -> None:
            tell(0.05 + 0.85 * (before + share * count) / total, f"glass of {name}")

        share = seconds * len(panes) / total
        levels.append(propose_glass_breaks(storey, panes, numbering, seconds=share, progress=onward, stop=halt))
        done += len(panes)
    return levels


def _proof(house: House, levels: list[LevelGlass]) -> FewestProof:
    return FewestProof(
        panes=sum(level.panes for level in levels),
        kept=sum(len(storey.devices("glass_break")) for storey in house),
        proposed=sum(len(level.hearing.listeners) for level in levels),
        on_walls=sum(len(level.proposals) - len(level.hearing.listeners) for level in levels),
        lower_bound=sum(level.hearing.bound for level in levels),
        exact=all(level.hearing.exact for level in levels),
        places=sum(level.hearing.places for level in levels),
    )


def _untried(house: House, levels: list[LevelGlass]) -> Iterable[str]:
    for storey, level in zip(house, levels, strict=True):
        for pane in level.hearing.untried:
            yield storey.scene.panes.name[pane]


def _silent(_share: float, _words: str) -> None:
    """Nobody asked how far the pass is."""


def _never() -> bool:
    return False
