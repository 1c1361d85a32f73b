"""Why no place on the ceiling hears a pane: it opens to no room, it is too far below or too wide, or always hidden."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.listening import listed
from app.geometry.discs import disc_ring
from app.geometry.eye import Eye
from app.geometry.pane_views import Sight, blockers_of_many
from app.plan.measures import length_text
from app.proposal.ceilings import Ceilings
from app.review.house import Storey

_STEP = 1.0  # ft between the places at which what hides a pane is asked
_MOST_PLACES = 60
_MOST_NAMED = 3


def why_deaf(storey: Storey, ceilings: Ceilings, pane: int, reach: float) -> str:
    """One sentence on why no place on the ceiling covers a pane."""
    panes = storey.scene.panes
    width, ceiling = float(panes.width[pane]), storey.level.ceiling

    def length(feet: float) -> str:
        return length_text(feet, storey.units)

    faces = ceilings.faces_towards(panes.opening[pane])
    if not faces:
        return "it opens to no closed room of the house: close the walls around its room"
    drop = max(abs(ceiling - panes.sill[pane]), abs(ceiling - panes.head[pane]))
    at_ceiling = f"at a ceiling of {length(ceiling)}"
    if drop >= reach:
        return f"{at_ceiling} its far edge is {length(drop)} below, beyond the {length(reach)} range"
    nearest = math.hypot(drop, width / 2)
    if nearest >= reach:
        return (
            f"it is too large for the range: {at_ceiling} even the spot straight above its middle is "
            f"{length(nearest)} from its corners, limit {length(reach)}"
        )
    places = ceilings.within_reach(panes.opening[pane], reach)
    for end in panes.ends[pane]:
        disc = shapely.Polygon(disc_ring((end[0], end[1]), math.sqrt(reach**2 - drop**2)))
        places = shapely.intersection(places, disc)
    if places.is_empty or places.area < 1e-6:
        return f"no ceiling of a room comes within {length(reach)} of all of it"
    hiders = _hiders(storey, pane, places, reach)
    by = f"by {listed([storey.name(hider) for hider in hiders])}" if hiders else "in part"
    return f"from every place within range some of it is hidden {by}"


def _hiders(storey: Storey, pane: int, places: BaseGeometry, reach: float) -> list[str]:
    """The things that hide most of a pane from the places within range, over all of them together."""
    totals: dict[str, float] = {}
    sights = [Sight(pane, Eye(x, y, storey.level.ceiling), reach) for x, y in _spread(places)]
    for shares in blockers_of_many(storey.scene.panes, storey.scene.bodies, sights):
        for owner, share in shares.items():
            totals[owner] = totals.get(owner, 0.0) + share
    most = max(totals.values(), default=0.0)
    ranked = sorted(totals, key=lambda owner: (-totals[owner], owner))
    return [owner for owner in ranked if totals[owner] > 0.1 * most][:_MOST_NAMED]


def _spread(places: BaseGeometry) -> list[tuple[float, float]]:
    """Points spread over a region: one sure to lie in it, and a coarse lattice."""
    low_x, low_y, high_x, high_y = places.bounds
    step = max(_STEP, math.sqrt((high_x - low_x) * (high_y - low_y) / _MOST_PLACES))
    x, y = np.meshgrid(np.arange(low_x + step / 2, high_x, step), np.arange(low_y + step / 2, high_y, step))
    inside = shapely.contains_xy(places, x.ravel(), y.ravel())
    sure = places.representative_point()
    spots = [(float(a), float(b)) for a, b in zip(x.ravel()[inside], y.ravel()[inside], strict=True)]
    return [(sure.x, sure.y), *spots]
