"""Plum Lane drawn with the PyPI package dxfwrite 1.2.2 (MIT): R12, feet, no unit told, turned, all on layer 0.

``python with_dxfwrite.py SHAPES.json OUT.dxf``: walls as R12 polylines, names as texts of another layer.
"""

import json
import math
import sys
from pathlib import Path

from dxfwrite import DXFEngine as dxf

TURN = math.radians(17)


def put(spot):
    x, y = spot
    return (x * math.cos(TURN) - y * math.sin(TURN) + 250, x * math.sin(TURN) + y * math.cos(TURN) + 80)


drawing = dxf.drawing(sys.argv[2])
drawing.add_layer("RAUM")
for shape in json.loads(Path(sys.argv[1]).read_text()):
    if shape["kind"] == "ring":
        line = dxf.polyline([put(spot) for spot in shape["spots"]], layer="0")
        line.close()
        drawing.add(line)
    elif shape["kind"] == "line":
        drawing.add(dxf.line(*map(put, shape["spots"]), layer="0"))
    elif shape["kind"] == "arc":
        turn = math.degrees(TURN)
        drawing.add(
            dxf.arc(shape["radius"], put(shape["centre"]), shape["start"] + turn, shape["end"] + turn, layer="0")
        )
    else:
        drawing.add(dxf.text(shape["text"], insert=put(shape["at"]), height=shape["height"], layer="RAUM"))
drawing.save()
