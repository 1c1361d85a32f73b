"""Why a pane stands as it does, worked out: too far and by how much, hidden by what, nobody in the room."""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.glass import TOLERANCE, GlassProof, PaneVerdict
from app.coverage.listening import Listening, listed
from app.geometry.eye import Eye
from app.geometry.pane_views import PaneView, blockers_of

_MOST_HIDERS = 3
_SMALL_SHARE = 0.05


def why(listening: Listening, verdict: PaneVerdict) -> str:
    """One sentence on how a pane stands by the detectors of its level."""
    if verdict.pane not in listening.told:
        listening.told[verdict.pane] = _worked_out(listening, verdict)
    return listening.told[verdict.pane]


def _worked_out(listening: Listening, verdict: PaneVerdict) -> str:
    proof = _spoken_of(listening, verdict)
    if proof is None:
        if not listening.proofs:
            return "Nobody listens: there is no glass-break detector on this level."
        return "Nobody listens: every glass-break detector of this level lies inside a solid body."
    name = listening.name(proof.device)
    if verdict.status == "covered":
        return f"{name} covers {_covered(listening, verdict.views[proof.device], proof)}."
    view = verdict.views.get(proof.device)
    if view is not None and view.fraction > TOLERANCE:
        return (
            f"{name} covers {_percent(view.fraction)} of it: {' and '.join(_missing(listening, verdict.pane, proof))}."
        )
    face, room = listening.face_of_pane(verdict.pane), listening.room_of_pane(verdict.pane)
    alone = room is not None and not listening.is_listened_in(face)
    reason = _nothing(listening, verdict.pane, proof, alone)
    return (
        f"Nobody listens in {room}; to the nearest, {name}, {reason}."
        if alone
        else f"{name} covers none of it: {reason}."
    )


def _covered(listening: Listening, view: PaneView, proof: GlassProof) -> str:
    """How much of a covered pane is reached: all of it, or the share that the practice asks for."""
    if view.fraction < 1 - TOLERANCE:
        return f"{_percent(view.fraction)} of it, which is what the practice asks for"
    return f"it: its farthest point is {listening.length(view.farthest)} away, limit {listening.length(proof.reach)}"


def _spoken_of(listening: Listening, verdict: PaneVerdict) -> GlassProof | None:
    """The best detector, else the nearest of the pane's room, else the nearest."""
    if verdict.best is not None:
        return listening.proof_of(verdict.best)
    return listening.first(verdict.pane)


def _missing(listening: Listening, pane: int, proof: GlassProof) -> Iterator[str]:
    """What keeps a detector from the rest of a pane that it covers in part."""
    assert proof.eye is not None
    view = proof.views[pane]
    if view.disc is not None:
        over = listening.length(view.farthest - proof.reach)
        yield f"its farthest point is {over} beyond the {listening.length(proof.reach)} range"
    if view.hidden or view.veils:
        hiders = _hiders(listening, pane, proof.eye, view.farthest)
        if hiders:
            yield f"part is hidden by {listed(hiders)}"


def _nothing(listening: Listening, pane: int, proof: GlassProof, alone: bool) -> str:
    """What keeps a detector from all of a pane; of one in another room it is enough that it is too far."""
    assert proof.eye is not None
    view = proof.views.get(pane)
    if view is not None and view.edge_on:
        return "it is edge-on: the detector lies in the plane of the glass"
    far, near = listening.distances(pane, proof.eye)
    too_far = near >= proof.reach
    beyond = listening.length(near - proof.reach)
    over = f"even its nearest point is {beyond} beyond the {listening.length(proof.reach)} range"
    if too_far and alone:
        return over
    hiders = _hiders(listening, pane, proof.eye, far)
    hidden = f"it is hidden by {listed(hiders)}" if hiders else ""
    if too_far:
        return f"{over} and {hidden}" if hidden else over
    return hidden or "only a sliver of it is within reach"


def _hiders(listening: Listening, pane: int, eye: Eye, far: float) -> list[str]:
    """The names of the one to three things that hide most of a pane, the greatest first."""
    shares = blockers_of(listening.scene.panes, listening.scene.bodies, pane, eye, far)
    told: list[str] = []
    for owner, share in sorted(shares.items(), key=lambda entry: (-entry[1], entry[0])):
        if share <= TOLERANCE or len(told) == _MOST_HIDERS or (told and share < _SMALL_SHARE):
            break
        told.append(listening.name(owner))
        if share >= 1 - TOLERANCE:
            break
    return told


def _percent(share: float) -> str:
    if share < 0.01:
        return "less than 1 %"
    return f"{share * 100:.0f} %" if share < 0.99 else f"{min(99.9, share * 100):.1f} %"
