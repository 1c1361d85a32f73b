"""Glass breaks proposed level by level: the fewest on ceilings, then wall mounts for panes that no ceiling hears."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from app.coverage.glass import prove_glass
from app.coverage.listening import listed
from app.plan.measures import length_text
from app.plan.model import Device
from app.plan.room_uses import KITCHEN_OR_BATH, use_of
from app.proposal.ceilings import Ceilings
from app.proposal.deaf_panes import why_deaf
from app.proposal.listeners import Ears, Hearing, Listener, covered_by
from app.proposal.proposals import Numbering, Proposal, sentence
from app.proposal.wall_mounts import WallMount, mount_on_walls
from app.review.house import Storey

_NO_SLACK = 1 / 24  # ft
_TIGHT = 0.25  # ft: slack that a tape on a joist easily uses up
_MOST_NAMED = 6  # panes in a sentence


@dataclass(frozen=True)
class Unreachable:
    """A pane that no place on its level's ceiling covers; ``instead`` is the proposed wall mount that does, or None."""

    pane: str
    level: str
    why: str
    instead: str | None


@dataclass(frozen=True)
class LevelGlass:
    """What the first pass found for the glass of one level; ``panes`` counts those that nobody heard before."""

    proposals: tuple[Proposal, ...]
    hearing: Hearing
    unreachable: tuple[Unreachable, ...]
    panes: int


def unheard(storey: Storey) -> list[int]:
    """The panes of exterior openings that no detector of the plan covers."""
    exterior = {opening.id for opening in storey.exterior}
    return [
        verdict.pane
        for verdict in storey.verdicts
        if verdict.status != "covered" and storey.scene.panes.opening[verdict.pane] in exterior
    ]


def propose_glass_breaks(
    storey: Storey,
    panes: Sequence[int],
    numbering: Numbering,
    *,
    seconds: float,
    progress: Callable[[float], None],
    stop: Callable[[], bool],
) -> LevelGlass:
    """The fewest glass breaks for some panes of a level, and what no ceiling place can do."""
    ceilings = Ceilings(storey.scene, storey.practice)
    reach = storey.practice.number("glass.range")
    ears = Ears(storey.scene, ceilings, storey.practice, storey.level.ceiling, reach)
    hearing = ears.hear(panes, seconds=seconds, progress=progress, stop=stop)
    proposals = [
        _on_ceiling(storey, listener, numbering)
        for listener in sorted(hearing.listeners, key=lambda one: (-round(one.at[1]), one.at[0]))
    ]
    # Less than a whole pane may be asked for and be heard where no region promised it.
    heard = _covering(storey, proposals)
    deaf = [pane for pane in hearing.deaf if pane not in heard]
    mounts = mount_on_walls(storey, ceilings, deaf, seconds=seconds / 4, stop=stop) if deaf else []
    on_walls = [_on_wall(storey, mount, numbering) for mount in mounts]
    instead = _covering(storey, on_walls)
    unreachable = [
        Unreachable(
            storey.scene.panes.name[pane],
            storey.level.id,
            f"{sentence(storey.name(storey.scene.panes.name[pane]))} cannot be covered from the ceiling: "
            f"{why_deaf(storey, ceilings, pane, reach)}.",
            instead.get(pane),
        )
        for pane in deaf
    ]
    return LevelGlass((*proposals, *on_walls), hearing, tuple(unreachable), len(panes))


def _covering(storey: Storey, proposals: Sequence[Proposal]) -> dict[int, str]:
    """For each pane that proposed detectors cover, the first of them, by the proof that every check uses."""
    first: dict[int, str] = {}
    for proposal in proposals:
        for pane in covered_by(prove_glass(storey.scene, proposal.device, storey.practice), storey.practice):
            first.setdefault(pane, proposal.device.id)
    return first


def _on_ceiling(storey: Storey, listener: Listener, numbering: Numbering) -> Proposal:
    face = storey.scene.faces.face_at(*listener.at)
    device = Device(
        id=numbering.next("glass_break"), kind="glass_break", at=listener.at, note=_note(storey, face, "ceiling place")
    )
    within = length_text(listener.depth, storey.units, sixteenths=1)
    slack = f"; set within {within} of the spot it still does" if listener.depth >= _NO_SLACK else "; it has no slack"
    if listener.depth < _TIGHT:
        slack += ", so measure it with care, or add a detector"
    return _proposal(storey, device, face, listener.heard, slack)


def _on_wall(storey: Storey, mount: WallMount, numbering: Numbering) -> Proposal:
    device = Device(
        id=numbering.next("glass_break"),
        kind="glass_break",
        at=mount.at,
        height=mount.height,
        facing=mount.facing,
        mount="wall",
        note=_note(storey, mount.face, "wall"),
    )
    return _proposal(storey, device, mount.face, mount.heard, "; no place on the ceiling does")


def _proposal(storey: Storey, device: Device, face: int, panes: Sequence[int], more: str) -> Proposal:
    names = tuple(storey.scene.panes.name[pane] for pane in panes)
    views = prove_glass(storey.scene, device, storey.practice).views
    farthest = length_text(max(views[pane].farthest for pane in panes), storey.units)
    limit = length_text(storey.practice.number("glass.range"), storey.units)
    room = storey.scene.room_of_face.get(face)
    where = f"in {storey.name(room)}, " if room else ""
    place = (
        "from the ceiling"
        if device.mount is None
        else f"from a wall at {length_text(device.height or 0.0, storey.units)}"
    )
    told = _glass_named(storey, panes)
    reason = f"{sentence(where)}{place}, it sees all of {listed(told)}: farthest point {farthest}, limit {limit}{more}."
    return Proposal(storey.level.id, device, sentence(reason), names)


def _glass_named(storey: Storey, panes: Sequence[int]) -> list[str]:
    """The panes as people name them: an opening whose every lite is among them by its own name."""
    owners = storey.scene.panes.opening
    together: dict[str, list[int]] = {}
    for pane in panes:
        together.setdefault(owners[pane], []).append(pane)
    told: list[str] = []
    for opening, lites in together.items():
        whole = len(lites) == storey.opening_by_id[opening].panes
        told += [storey.name(opening)] if whole else [storey.name(storey.scene.panes.name[pane]) for pane in lites]
    return told if len(told) <= _MOST_NAMED else [*told[:_MOST_NAMED], f"{len(told) - _MOST_NAMED} more"]


def _note(storey: Storey, face: int, place: str) -> str | None:
    """What a detector in a kitchen or bath must say for itself."""
    room = storey.scene.room_of_face.get(face)
    if room is None or use_of(storey.room_by_id[room]) not in KITCHEN_OR_BATH:
        return None
    return f"In {storey.name(room)} because no {place} elsewhere covers its glass with as few detectors; test it there."
