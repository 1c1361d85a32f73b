"""The whole answer of a check: the object that ``check --json`` prints and HTTP gives.

Keys are fixed by the contract; what stands beyond it is listed in DEVELOPERS.md.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, pairwise
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import TOLERANCE, PaneVerdict
from app.coverage.listening import Listening
from app.coverage.mend import Mender
from app.coverage.motion import MotionProof, watched_share
from app.coverage.why import why
from app.geometry.pane_views import seen_region
from app.plan.model import Plan
from app.review.findings import SEVERITIES, Finding
from app.review.house import House, Storey
from app.review.rulebook import all_rules

Answer = dict[str, Any]


def check_plan(plan: Plan) -> Answer:
    """Coverage and findings of a whole plan, as contract §4 gives them."""
    return check_house(House(plan))


def check_house(house: House) -> Answer:
    """The same for a house whose scenes and proofs may be computed already."""
    panes = [
        pane_answer(storey, verdict, storey.listening, storey.mender) for storey in house for verdict in storey.verdicts
    ]
    findings = findings_of(house)
    counted = {
        status: sum(pane["status"] == status for pane in panes) for status in ("covered", "partial", "uncovered")
    }
    return {
        "plan": house.plan.name,
        "panes": panes,
        "rooms": [room for storey in house for room in room_answers(storey, storey.motions)],
        "motions": [motion_answer(storey, proof) for storey in house for proof in storey.motions],
        "findings": [finding_answer(finding) for finding in findings],
        "summary": {"panes": len(panes)}
        | counted
        | {severity: sum(finding.severity == severity for finding in findings) for severity in SEVERITIES},
        "levels": [
            {"id": storey.level.id, "faces": list(chain.from_iterable(_rings_of(storey.scene.faces.outline)))}
            for storey in house
        ],
    }


def findings_of(house: House) -> list[Finding]:
    """Every finding of every rule, the gravest first."""
    found = [finding for rule in all_rules() for finding in rule.findings(house)]
    return sorted(found, key=lambda finding: SEVERITIES.index(finding.severity))


def finding_answer(finding: Finding) -> Answer:
    """A finding as JSON says it."""
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "things": list(finding.things),
        "message": finding.message,
        "source": finding.source,
    }


def pane_answer(storey: Storey, verdict: PaneVerdict, listening: Listening, mender: Mender | None) -> Answer:
    """How one pane stands by some detectors; a trial gives no mender, which a drag has no time for."""
    panes, pane = storey.scene.panes, verdict.pane
    opening = storey.opening_by_id[panes.opening[pane]]
    unjudged = {
        "id": panes.name[pane],
        "opening": opening.id,
        "level": storey.level.id,
        "room": storey.scene.room_of_opening(opening.id),
        "area_sqft": round(float(panes.area[pane]), 4),
        "status": None,
        "fractions": None,
        "best": None,
        "why": None,
        "segment": _rounded(panes.ends[pane]),
        "sill": opening.sill,
        "head": opening.head,
        "stretches": None,
        "gaps": None,
        "distances": None,
        "exterior": storey.scene.is_exterior(opening),
        "mend": None,
    }
    return judged_anew(unjudged, storey, verdict, listening, mender)


def judged_anew(
    answer: Answer, storey: Storey, verdict: PaneVerdict, listening: Listening, mender: Mender | None = None
) -> Answer:
    """A pane's answer with all that depends on detectors said anew; what the plan says of the pane stays."""
    stretches, gaps = uncovered_parts(storey, verdict)
    mend = None if mender is None or verdict.status == "covered" else mender.smallest_move(verdict)
    fractions = {device: round(view.fraction, 6) for device, view in verdict.views.items()}
    best = None
    if verdict.best is not None:
        view = verdict.views[verdict.best]
        best = {"device": verdict.best, "fraction": round(view.fraction, 6), "farthest_ft": round(view.farthest, 4)}
    return answer | {
        "status": verdict.status,
        "fractions": {device: fraction for device, fraction in fractions.items() if fraction > 0},
        "best": best,
        "why": why(listening, verdict),
        "stretches": stretches,
        "gaps": gaps,
        "distances": {device: round(view.farthest, 4) for device, view in verdict.views.items()},
        "mend": None
        if mend is None
        else {
            "device": mend.device,
            "move": [round(mend.move[0], 6), round(mend.move[1], 6)],
            "words": mend.words,
            "uncovers": list(mend.uncovers),
        },
    }


def uncovered_parts(storey: Storey, verdict: PaneVerdict) -> tuple[list[list[float]], list[list[list[float]]]]:
    """Where the best detector does not reach: stretches [from, to] along the pane and outlines in (u, z), in feet."""
    panes, pane = storey.scene.panes, verdict.pane
    width, sill, head = float(panes.width[pane]), float(panes.sill[pane]), float(panes.head[pane])
    if verdict.best is None:
        return [[0.0, round(width, 4)]], [_rounded([(0, sill), (width, sill), (width, head), (0, head)])]
    view = verdict.views[verdict.best]
    if view.fraction >= 1 - TOLERANCE:
        return [], []
    gap = shapely.difference(shapely.box(0, sill, width, head), seen_region(view, width, sill, head))
    parts = [part for part in shapely.get_parts(gap) if part.area > 1e-6]
    spans = sorted((part.bounds[0], part.bounds[2]) for part in parts)
    stretches: list[list[float]] = []
    for low, high in spans:
        if stretches and low <= stretches[-1][1] + 1e-4:
            stretches[-1][1] = max(stretches[-1][1], round(high, 4))
        else:
            stretches.append([round(low, 4), round(high, 4)])
    return stretches, [ring for part in parts for ring in _rings(part)]


def room_answers(storey: Storey, motions: list[MotionProof]) -> list[Answer]:
    """Every room of a level with what watches its floor."""
    faces = [storey.scene.face_of_room[room.id] for room in storey.level.rooms]
    floors = [storey.scene.faces.floors[face] if face >= 0 else shapely.Polygon() for face in faces]
    answers = []
    for room, face, floor, outline in zip(storey.level.rooms, faces, floors, _rings_of(floors), strict=True):
        seen = {proof.device: proof.seen[face].area for proof in motions if face in proof.seen}
        answers.append(
            {
                "id": room.id,
                "name": room.name,
                "level": storey.level.id,
                "area_sqft": round(float(floor.area), 4),
                "motion_fraction": round(watched_share(storey.ground, face, motions), 6) if seen else 0.0,
                "motions": {device: round(float(area), 4) for device, area in seen.items()},
                "use": room.use,
                "outline": outline,
            }
        )
    return answers


def motion_answer(storey: Storey, proof: MotionProof) -> Answer:
    """What one motion detector watches."""
    return {
        "id": proof.device,
        "level": storey.level.id,
        "area_sqft": round(proof.area, 4),
        "outline": list(chain.from_iterable(_rings_of(list(proof.seen.values())))),
    }


def _rings(geometry: BaseGeometry) -> list[list[list[float]]]:
    """The outer rings of a region's polygons, corners rounded to 1e-4 ft."""
    return _rings_of([geometry])[0]


def _rings_of(geometries: Sequence[BaseGeometry] | NDArray[np.object_]) -> list[list[list[list[float]]]]:
    """The same for each of many regions, in one pass."""
    parts, owner = shapely.get_parts(geometries, return_index=True)
    areal = (shapely.get_type_id(parts) == shapely.GeometryType.POLYGON) & ~shapely.is_empty(parts)
    points, ring = shapely.get_coordinates(shapely.get_exterior_ring(parts[areal]), return_index=True)
    corners, ends = _rounded(points), np.searchsorted(ring, np.arange(areal.sum() + 1)).tolist()
    rings: list[list[list[list[float]]]] = [[] for _ in geometries]
    for index, (first, last) in zip(owner[areal].tolist(), pairwise(ends), strict=True):
        rings[index].append(corners[first : last - 1])
    return rings


def _rounded(points: Any) -> list[list[float]]:
    rounded: list[list[float]] = np.round(np.asarray(points, dtype=float), 4).tolist()
    return rounded
