"""Why a pane stands as it does, worked out: too far and by how much, hidden by what, nobody in the room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.coverage.glass import TOLERANCE, GlassProof, PaneVerdict
from app.coverage.listening import Listening, listed
from app.geometry.pane_views import PaneView, Sight, blockers_of_many

_MOST_HIDERS = 3
_SMALL_SHARE = 0.05


def why(listening: Listening, verdict: PaneVerdict) -> str:
    """One sentence on how a pane stands by the detectors of its level."""
    if verdict.pane not in listening.told:
        listening.told[verdict.pane] = _worked_out(listening, verdict)
    return listening.told[verdict.pane]


def find_what_hides(listening: Listening, verdicts: Iterable[PaneVerdict]) -> None:
    """Find what hides many panes in the same passes, for ``why`` to tell of each."""
    new = [verdict for verdict in verdicts if verdict.status != "covered" and verdict.pane not in listening.blocked]
    sights = [sight for verdict in new if (sight := _barred(listening, verdict)) is not None]
    shares = blockers_of_many(listening.scene.panes, listening.scene.bodies, sights)
    listening.blocked.update({verdict.pane: {} for verdict in new})
    listening.blocked.update(zip((sight.pane for sight in sights), shares, strict=True))


def _barred(listening: Listening, verdict: PaneVerdict) -> Sight | None:
    """The sight of a pane not covered of which ``why`` tells what bars it, or None where it tells of nothing."""
    proof = _spoken_of(listening, verdict)
    if proof is None or proof.eye is None:
        return None
    view = verdict.views.get(proof.device)
    if view is not None and view.fraction > TOLERANCE:
        return Sight(verdict.pane, proof.eye, view.farthest) if view.hidden or view.veils else None
    view = proof.views.get(verdict.pane)
    if view is not None and view.edge_on:
        return None
    far, near = listening.distances(verdict.pane, proof.eye)
    enough = near >= proof.reach and _nobody_in_the_room(listening, verdict.pane)
    return None if enough else Sight(verdict.pane, proof.eye, far)


def _nobody_in_the_room(listening: Listening, pane: int) -> bool:
    return listening.room_of_pane(pane) is not None and not listening.is_listened_in(listening.face_of_pane(pane))


def _worked_out(listening: Listening, verdict: PaneVerdict) -> str:
    proof = _spoken_of(listening, verdict)
    if proof is None:
        if not listening.proofs:
            return "Nobody listens: there is no glass-break detector on this level."
        return "Nobody listens: every glass-break detector of this level lies inside a solid body."
    name = listening.name(proof.device)
    if verdict.status == "covered":
        return f"{name} covers {_covered(listening, verdict.views[proof.device], proof)}."
    find_what_hides(listening, [verdict])
    hidden_by = _hiders(listening, verdict.pane)
    view = verdict.views.get(proof.device)
    if view is not None and view.fraction > TOLERANCE:
        missing = " and ".join(_missing(listening, view, proof, hidden_by))
        return f"{name} covers {_percent(view.fraction)} of it: {missing}."
    reason = _nothing(listening, verdict.pane, proof, hidden_by)
    return (
        f"Nobody listens in {listening.room_of_pane(verdict.pane)}; to the nearest, {name}, {reason}."
        if _nobody_in_the_room(listening, verdict.pane)
        else f"{name} covers none of it: {reason}."
    )


def _covered(listening: Listening, view: PaneView, proof: GlassProof) -> str:
    """How much of a covered pane is reached: all of it, or the share that the practice asks for."""
    if view.fraction < 1 - TOLERANCE:
        return f"{_percent(view.fraction)} of it, which is what the practice asks for"
    return f"it: its farthest point is {listening.length(view.farthest)} away, limit {listening.length(proof.reach)}"


def _spoken_of(listening: Listening, verdict: PaneVerdict) -> GlassProof | None:
    """The best detector, else the nearest of the pane's room, else the nearest."""
    if verdict.pane not in listening.spoken_of:
        best = verdict.best
        listening.spoken_of[verdict.pane] = listening.first(verdict.pane) if best is None else listening.proof_of(best)
    return listening.spoken_of[verdict.pane]


def _missing(listening: Listening, view: PaneView, proof: GlassProof, hidden_by: str) -> Iterator[str]:
    """What keeps a detector from the rest of a pane that it covers in part."""
    if view.disc is not None:
        over = listening.length(view.farthest - proof.reach)
        yield f"its farthest point is {over} beyond the {listening.length(proof.reach)} range"
    if hidden_by:
        yield f"part is hidden by {hidden_by}"


def _nothing(listening: Listening, pane: int, proof: GlassProof, hidden_by: str) -> str:
    """What keeps a detector from all of a pane; of one in another room it is enough that it is too far."""
    assert proof.eye is not None
    view = proof.views.get(pane)
    if view is not None and view.edge_on:
        return "it is edge-on: the detector lies in the plane of the glass"
    _, near = listening.distances(pane, proof.eye)
    hidden = f"it is hidden by {hidden_by}" if hidden_by else ""
    if near < proof.reach:
        return hidden or "only a sliver of it is within reach"
    beyond = listening.length(near - proof.reach)
    over = f"even its nearest point is {beyond} beyond the {listening.length(proof.reach)} range"
    return f"{over} and {hidden}" if hidden else over


def _hiders(listening: Listening, pane: int) -> str:
    """The names of the one to three things that hide most of a pane, the greatest first; empty where none do."""
    told: list[str] = []
    for owner, share in sorted(listening.blocked[pane].items(), key=lambda entry: (-entry[1], entry[0])):
        if share <= TOLERANCE or len(told) == _MOST_HIDERS or (told and share < _SMALL_SHARE):
            break
        told.append(listening.name(owner))
        if share >= 1 - TOLERANCE:
            break
    return listed(told) if told else ""


def _percent(share: float) -> str:
    if share < 0.01:
        return "less than 1 %"
    return f"{share * 100:.0f} %" if share < 0.99 else f"{min(99.9, share * 100):.1f} %"
