"""Plans written to IFC with ifcopenshell's own authoring calls: walls, voids, doors, windows, spaces, storeys.

``unit`` is the model's; a storey's level is a plan dict as in ``sample_plans``.
"""

from __future__ import annotations

import importlib
import math
from typing import Any

import numpy as np
import shapely

Value = dict[str, Any]
METRES = {"METRE": 1.0, "MILLIMETRE": 0.001, "FOOT": 0.3048}


def written(levels: list[Value], unit: str = "MILLIMETRE", schema: str = "IFC4") -> bytes:
    """The levels as the bytes of an IFC file."""
    api = _authoring()
    model = api.project.create_file(version=schema)
    if schema == "IFC2X3":
        _sign(model)
    project = api.root.create_entity(model, ifc_class="IfcProject", name="Trial")
    if unit == "FOOT":
        api.unit.assign_unit(model, length={"is_metric": False, "raw": "FEET"})
    else:
        api.unit.assign_unit(model, length={"is_metric": True, "raw": unit + "S"})
    return _Writer(model, project, 0.3048 / METRES[unit]).whole(levels)


def _authoring() -> Any:
    """The library's authoring calls, each of whose parts must be loaded by its name."""
    for part in ("aggregate", "context", "feature", "geometry", "owner", "project", "root", "spatial", "unit"):
        importlib.import_module(f"ifcopenshell.api.{part}")
    return importlib.import_module("ifcopenshell.api")


def _sign(model: Any) -> None:
    """The older schema wants an author for every element."""
    api = _authoring()
    settings = importlib.import_module("ifcopenshell.api.owner.settings")
    person = api.owner.add_person(model, identification="A", family_name="Author")
    office = api.owner.add_organisation(model, identification="O", name="Office")
    user = api.owner.add_person_and_organisation(model, person=person, organisation=office)
    application = api.owner.add_application(model)
    settings.get_user = lambda _model: user
    settings.get_application = lambda _model: application


class _Writer:
    def __init__(self, model: Any, project: Any, per_foot: float) -> None:
        api = _authoring()
        self.api, self.model, self.per_foot = api, model, per_foot
        context = api.context.add_context(model, context_type="Model")
        self.body = api.context.add_context(
            model, context_type="Model", context_identifier="Body", target_view="MODEL_VIEW", parent=context
        )
        self.site = api.root.create_entity(model, ifc_class="IfcSite", name="Site")
        self.building = api.root.create_entity(model, ifc_class="IfcBuilding", name="House")
        api.aggregate.assign_object(model, products=[self.site], relating_object=project)
        api.aggregate.assign_object(model, products=[self.building], relating_object=self.site)

    def whole(self, levels: list[Value]) -> bytes:
        for level in levels:
            self._storey(level)
        return self.model.to_string().encode()

    def _storey(self, level: Value) -> None:
        api, model = self.api, self.model
        storey = api.root.create_entity(model, ifc_class="IfcBuildingStorey", name=level["name"])
        elevation = level.get("elevation", 0.0)
        storey.Elevation = elevation * self.per_foot
        api.aggregate.assign_object(model, products=[storey], relating_object=self.building)
        self._place(storey, np.eye(4), (0.0, 0.0, elevation))
        ceiling = level.get("ceiling", 9.0)
        made = {}
        for wall in level["walls"]:
            made[wall["id"]] = self._box_along(
                wall, "IfcWall", 0, math.dist(wall["a"], wall["b"]), elevation, wall.get("height") or ceiling, 0.0
            )
            api.spatial.assign_container(model, products=[made[wall["id"]]], relating_structure=storey)
        walls = {wall["id"]: wall for wall in level["walls"]}
        for one in level["openings"]:
            self._opening(walls[one["wall"]], made[one["wall"]], one, storey, elevation)
        for room in level.get("rooms", []):
            self._space(level, room, storey, elevation, ceiling)

    def _place(self, product: Any, turn: np.ndarray, at: tuple[float, float, float]) -> None:
        matrix = turn.copy()
        matrix[:3, 3] = np.array(at) * 0.3048  # the call takes metres
        self.api.geometry.edit_object_placement(self.model, product=product, matrix=matrix)

    def _extruded(self, product: Any, ring: list[tuple[float, float]], height: float) -> None:
        model, k = self.model, self.per_foot
        points = [model.createIfcCartesianPoint((x * k, y * k)) for x, y in [*ring, ring[0]]]
        profile = model.createIfcArbitraryClosedProfileDef("AREA", None, model.createIfcPolyline(points))
        origin = model.createIfcAxis2Placement3D(model.createIfcCartesianPoint((0.0, 0.0, 0.0)))
        up = model.createIfcDirection((0.0, 0.0, 1.0))
        solid = model.createIfcExtrudedAreaSolid(profile, origin, up, height * k)
        shape = model.createIfcShapeRepresentation(self.body, "Body", "SweptSolid", [solid])
        self.api.geometry.assign_representation(model, product=product, representation=shape)

    def _box_along(
        self, wall: Value, kind: str, start: float, end: float, base: float, height: float, more: float
    ) -> Any:
        product = self.api.root.create_entity(self.model, ifc_class=kind, name=wall["id"])
        turn = math.atan2(wall["b"][1] - wall["a"][1], wall["b"][0] - wall["a"][0])
        matrix = np.eye(4)
        matrix[:2, :2] = [[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]]
        at = (wall["a"][0] + start * math.cos(turn), wall["a"][1] + start * math.sin(turn), base)
        half = wall.get("thickness", 0.375) / 2 + more
        self._extruded(product, [(0, -half), (end - start, -half), (end - start, half), (0, half)], height)
        self._place(product, matrix, at)
        return product

    def _opening(self, wall: Value, host: Any, one: Value, storey: Any, elevation: float) -> None:
        sill, head = one.get("sill", 0.0), one.get("head", 6.667)
        start, end = one["offset"], one["offset"] + one["width"]
        void = self._box_along(wall, "IfcOpeningElement", start, end, elevation + sill, head - sill, 0.1)
        self.api.feature.add_feature(self.model, feature=void, element=host)
        if one["kind"] == "cased":
            return
        kind = "IfcDoor" if one["kind"] == "door" else "IfcWindow"
        filling = self._box_along(wall, kind, start, end, elevation + sill, head - sill, -0.1)
        filling.OverallWidth = one["width"] * self.per_foot
        filling.OverallHeight = (head - sill) * self.per_foot
        if kind == "IfcDoor" and self.model.schema != "IFC2X3":
            slides = one.get("leaf") == "slide"
            sides = {"a": "SINGLE_SWING_LEFT", "b": "SINGLE_SWING_RIGHT", None: "NOTDEFINED"}
            filling.OperationType = "DOUBLE_DOOR_SLIDING" if slides else sides[one.get("hinge")]
            if one.get("leaf") == "overhead":
                filling.OperationType = "ROLLINGUP"
        elif kind == "IfcWindow" and self.model.schema != "IFC2X3":
            panes = one.get("panes", 1)
            filling.PartitioningType = {1: "SINGLE_PANEL", 2: "DOUBLE_PANEL_VERTICAL"}.get(
                panes, "TRIPLE_PANEL_VERTICAL"
            )
        self.api.feature.add_filling(self.model, opening=void, element=filling)
        self.api.spatial.assign_container(self.model, products=[filling], relating_structure=storey)

    def _space(self, level: Value, room: Value, storey: Any, elevation: float, ceiling: float) -> None:
        lines = shapely.union_all([shapely.LineString([wall["a"], wall["b"]]) for wall in level["walls"]])
        faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(lines)))
        face = next((one for one in faces if one.contains(shapely.Point(room["at"]))), None)
        if face is None:
            return
        space = self.api.root.create_entity(self.model, ifc_class="IfcSpace", name=room["id"])
        space.LongName = room["name"]
        self._extruded(space, [(x, y) for x, y in face.exterior.coords[:-1]], ceiling)
        self.api.aggregate.assign_object(self.model, products=[space], relating_object=storey)
        self._place(space, np.eye(4), (0.0, 0.0, elevation))
