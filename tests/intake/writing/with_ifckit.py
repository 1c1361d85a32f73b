"""Plum Lane built with the PyPI package ifckit 0.4.0 (LGPL-3.0-or-later), in millimetres: walls by their footprints.

``python with_ifckit.py OUT.ifc``; the doors and windows are the library's own components, with frames and leaves.
"""

import math
import sys

from ifckit import IfcModel, IfcSchema, LengthUnit, PendingDoor, PendingWall, PendingWindow, Plane, Vec

from tests.intake.writing.plum_lane import LEVEL

M = 304.8
model = IfcModel(name="5 Plum Lane", schema=IfcSchema.IFC4, author="", unit=LengthUnit.MILLIMETRE)
storey = model.add_site("Site").add_building("Cottage").add_storey("Main floor", elevation=0.0)
FRAME = {
    "lining_thickness": 55.0,
    "lining_depth": 70.0,
    "panel_depth": 40.0,
    "wall_thickness": 150.0,
    "panel_width": 1.0,
    "threshold_thickness": 20.0,
    "threshold_depth": 70.0,
}
hosts = {}
for wall in LEVEL["walls"]:
    (ax, ay), (bx, by) = wall["a"], wall["b"]
    length, half = math.dist(wall["a"], wall["b"]) * M, wall["thickness"] / 2 * M
    ux, uy = (bx - ax) * M / length, (by - ay) * M / length
    plane = Plane(origin=Vec(ax * M, ay * M, 0), x_axis=Vec(ux, uy, 0), y_axis=Vec(-uy, ux, 0))
    ring = [Vec(0, -half, 0), Vec(length, -half, 0), Vec(length, half, 0), Vec(0, half, 0)]
    hosts[wall["id"]] = (storey.add(PendingWall(footprint=ring, plane=plane, height=9 * M, name=wall["id"])), wall)
for one in LEVEL["openings"]:
    if one["kind"] == "cased":
        continue
    host, wall = hosts[one["wall"]]
    (ax, ay), (bx, by) = wall["a"], wall["b"]
    length = math.dist(wall["a"], wall["b"])
    ux, uy = (bx - ax) / length, (by - ay) / length
    sill = 3.0 if one["kind"] == "window" else 0.0
    spot = Vec((ax + one["offset"] * ux) * M, (ay + one["offset"] * uy) * M, sill * M)
    made = PendingWindow if one["kind"] == "window" else PendingDoor
    plane = Plane(origin=spot, x_axis=Vec(ux, uy, 0), y_axis=Vec(0, 0, 1))
    graph = "simple_window" if one["kind"] == "window" else "simple_door"
    height = (6.667 - sill) * M
    model.add(
        made(
            overall_width=one["width"] * M, overall_height=height, plane=plane, component_graph=graph, parameters=FRAME
        ),
        host,
    )
model.save(sys.argv[1])
