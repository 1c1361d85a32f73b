"""The IFC library behind a narrow door: a model opened, its storeys, and the body of any element in feet.

Everything that needs ``ifcopenshell`` is imported here, so that the rest of the program runs without it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from app.intake.refused import DrawingRefused

FEET_PER_METRE = 1 / 0.3048
MOST_ENTITIES = 400_000
HOW_TO_GET = "reading IFC needs the library ifcopenshell; install it with: pip install 'studbay[ifc]'"
_LEVEL = 0.01  # ft
_ENTITY = re.compile(rb"(?m)^\s*#\d+\s*=")


@dataclass
class Storey:
    """A storey: its name, its elevation in feet, and the elements on it."""

    name: str
    elevation: float
    elements: list[Any] = field(default_factory=list)

    def of(self, kind: str) -> list[Any]:
        """The elements of a kind, in the order of the file."""
        return [element for element in self.elements if element.is_a(kind)]

    def count(self, kind: str) -> int:
        """How many elements of a kind it has."""
        return len(self.of(kind))


class Building:
    """An opened model."""

    def __init__(self, model: Any, geometry: Any, settings: Any) -> None:
        from ifcopenshell.util.element import get_container
        from ifcopenshell.util.placement import get_storey_elevation
        from ifcopenshell.util.unit import calculate_unit_scale

        self._model, self._geometry, self._settings = model, geometry, settings
        self.feet = float(calculate_unit_scale(model)) * FEET_PER_METRE
        self._container = get_container
        by_id: dict[int, Storey] = {}
        for number, storey in enumerate(model.by_type("IfcBuildingStorey"), 1):
            name = " ".join(str(storey.Name or storey.LongName or f"Storey {number}").split())[:100]
            by_id[storey.id()] = Storey(name, float(get_storey_elevation(storey)) * self.feet)
        self._by_id = by_id
        self.is_without_storeys = not by_id
        if not by_id:
            by_id |= {held.id(): whole for whole in [Storey("Building", 0.0)] for held in model.by_type("IfcProject")}
        self.storeys: Sequence[Storey] = sorted(by_id.values(), key=lambda storey: storey.elevation)
        self._tell_apart()
        for kind in ("IfcWall", "IfcDoor", "IfcWindow", "IfcSpace"):
            for element in model.by_type(kind):
                if (found := self.storey_of(element)) is not None:
                    found.elements.append(element)
        if self.is_without_storeys:
            self._lay_floor(self.storeys[0])

    def _lay_floor(self, whole: Storey) -> None:
        """The floor of a model without storeys: the lowest foot of its walls."""
        feet = [points[:, 2].min() for wall in whole.of("IfcWall") if (points := self.points(wall)) is not None]
        whole.elevation = float(min(feet, default=0.0))

    def _tell_apart(self) -> None:
        seen: set[str] = set()
        for storey in self.storeys:
            name, count = storey.name, 2
            while storey.name in seen:
                storey.name, count = f"{name} ({count})", count + 1
            seen.add(storey.name)

    @property
    def is_metric(self) -> bool:
        """Whether the model's unit of length is a metric one."""
        metres = self.feet / FEET_PER_METRE
        return any(abs(metres - known) < 1e-6 for known in (1.0, 0.1, 0.01, 0.001))

    def by_type(self, kind: str) -> list[Any]:
        """All elements of a kind; none where the model's schema does not know it."""
        try:
            return list(self._model.by_type(kind))
        except RuntimeError:
            return []

    def storey_of(self, element: Any) -> Storey | None:
        """The storey that an element, or what it is a part of, stands on."""
        if self.is_without_storeys:
            return self.storeys[0]
        held = element
        for _ in range(8):
            if held is None:
                return None
            if held.id() in self._by_id:
                return self._by_id[held.id()]
            above = self._container(held)
            if above is None or above.id() == held.id():
                above = next((one.RelatingObject for one in getattr(held, "Decomposes", ()) or ()), None)
            held = above
        return None

    def storey_name_of(self, element: Any) -> str:
        """The name of the storey, for the account."""
        found = self.storey_of(element)
        return "no storey" if found is None else found.name

    def points(self, element: Any) -> NDArray[np.float64] | None:
        """The corners (n, 3) of an element's body in feet, openings not cut; None where it has none."""
        if element.Representation is None:
            return None
        try:
            shape = self._geometry.create_shape(self._settings, element)
        except (RuntimeError, ValueError):
            return None
        flat = np.array(shape.geometry.verts, dtype=np.float64).reshape(-1, 3)
        return flat * FEET_PER_METRE if len(flat) >= 4 and np.isfinite(flat).all() else None

    def lowest_faces(self, element: Any) -> shapely.Geometry | None:
        """The floor of an element's body in plan, in feet; None where it has none."""
        try:
            shape = self._geometry.create_shape(self._settings, element)
        except (RuntimeError, ValueError):
            return None
        spots = np.array(shape.geometry.verts, dtype=np.float64).reshape(-1, 3) * FEET_PER_METRE
        corners = spots[np.array(shape.geometry.faces, dtype=np.int64).reshape(-1, 3)]
        flat = corners[(np.abs(corners[:, :, 2] - spots[:, 2].min()) < _LEVEL).all(axis=1)]
        return shapely.union_all(shapely.polygons(flat[:, :, :2])) if len(flat) else None

    def placement(self, element: Any) -> NDArray[np.float64]:
        """The 4 × 4 placement of an element, its origin in feet."""
        from ifcopenshell.util.placement import get_local_placement

        matrix = np.array(get_local_placement(element.ObjectPlacement), dtype=np.float64)
        matrix[:3, 3] *= self.feet
        return matrix


def open_model(source: bytes) -> Building:
    """Open an IFC file's bytes; raises ``DrawingRefused``."""
    count = sum(1 for _ in _ENTITY.finditer(source))
    if count > MOST_ENTITIES:
        raise DrawingRefused(f"the IFC holds over {MOST_ENTITIES:,} entities; save one building of it", too_large=True)
    if b"END-ISO-10303-21" not in source[-2000:]:
        raise DrawingRefused("the IFC ends early: the file is not whole; ask for it again")
    try:
        import ifcopenshell
        import ifcopenshell.geom
    except ImportError:
        raise DrawingRefused(HOW_TO_GET) from None
    try:
        model = ifcopenshell.file.from_string(source.decode("utf-8", "replace"))
        settings: Any = ifcopenshell.geom.settings()  # type: ignore[no-untyped-call,unused-ignore]
        settings.set("use-world-coords", True)
        settings.set("disable-opening-subtractions", True)
        if not model.by_type("IfcProject"):
            raise DrawingRefused("the IFC cannot be read: no project is in what can be understood of it; save it again")
        return Building(model, ifcopenshell.geom, settings)
    except DrawingRefused:
        raise
    except Exception as error:  # a damaged file may trip the library anywhere
        raise DrawingRefused(
            f"the IFC is damaged beyond reading ({type(error).__name__}); save it again from its program"
        ) from None
