"""Building models written line by line in the standard's text form, as other programs shape them: no library of ours.

Walls get their body as an extrusion, clipped by a roof's plane, as faces, as triangles or mapped from a type; windows
with a void or without; storeys told or not; any unit; far from the origin.
"""

from __future__ import annotations

from typing import Any

from tests.intake.writing.plum_lane import LEVEL

BODIES = ("extruded", "clipped", "brep", "triangles", "mapped")
UNITS = {"m": 0.3048, "mm": 304.8, "ft": 1.0, "in": 12.0}
HEIGHT = 9.0  # ft


class StepFile:
    """Numbered lines; every call gives the new line's reference."""

    def __init__(self, schema: str) -> None:
        self.schema = schema
        self._lines: list[str] = []
        self._ids = 0

    def add(self, kind: str, *values: Any) -> str:
        """A line of a kind; strings stand as they are given."""
        self._lines.append(f"#{len(self._lines) + 1}={kind}({','.join(map(self._said, values))});")
        return f"#{len(self._lines)}"

    def root(self) -> str:
        """A new identity of 22 letters."""
        self._ids += 1
        return f"'{self._ids:022d}'"

    def _said(self, value: Any) -> str:
        if isinstance(value, (list, tuple)):
            return "(" + ",".join(map(self._said, value)) + ")"
        if not isinstance(value, float):
            return str(value)
        digits, _, power = f"{value:.9g}".partition("e")
        return digits + ("" if "." in digits else ".") + (f"E{power}" if power else "")

    def text(self) -> bytes:
        """The whole file."""
        head = "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('ViewDefinition [CoordinationView]'),'2;1');\n"
        head += "FILE_NAME('h.ifc','2026-01-01T00:00:00',(''),(''),'','','');\n"
        head += f"FILE_SCHEMA(('{self.schema}'));\nENDSEC;\nDATA;\n"
        return (head + "\n".join(self._lines) + "\nENDSEC;\nEND-ISO-10303-21;\n").encode()


def cottage(
    *,
    body: str = "extruded",
    unit: str = "mm",
    schema: str = "IFC4",
    voids: bool = True,
    storeys: bool = True,
    far: tuple[float, float] = (0.0, 0.0),
) -> bytes:
    """The cottage at 5 Plum Lane; ``far`` shifts its site by feet."""
    return _Cottage(StepFile(schema), body, UNITS[unit], unit, voids).whole(storeys, far)


class _Cottage:
    def __init__(self, file: StepFile, body: str, per_foot: float, unit: str, voids: bool) -> None:
        self.file, self.body, self.k, self.voids = file, body, per_foot, voids
        add = file.add
        self.owner = "$"
        if file.schema == "IFC2X3":
            person = add("IFCPERSON", "$", "'A'", "$", "$", "$", "$", "$", "$")
            office = add("IFCORGANIZATION", "$", "'O'", "$", "$", "$")
            both = add("IFCPERSONANDORGANIZATION", person, office, "$")
            made = add("IFCAPPLICATION", office, "'1'", "'By hand'", "'BH'")
            self.owner = add("IFCOWNERHISTORY", both, made, "$", ".ADDED.", "$", "$", "$", 0)
        self.up, self.east = add("IFCDIRECTION", (0.0, 0.0, 1.0)), add("IFCDIRECTION", (1.0, 0.0, 0.0))
        self.world = add("IFCAXIS2PLACEMENT3D", self.point(0, 0, 0), "$", "$")
        self.context = add("IFCGEOMETRICREPRESENTATIONCONTEXT", "$", "'Model'", 3, 1e-5, self.world, "$")
        self.units = add("IFCUNITASSIGNMENT", [self._unit(unit)])

    def _unit(self, unit: str) -> str:
        add = self.file.add
        if unit in ("m", "mm"):
            return add("IFCSIUNIT", "*", ".LENGTHUNIT.", ".MILLI." if unit == "mm" else "$", ".METRE.")
        metre = add("IFCSIUNIT", "*", ".LENGTHUNIT.", "$", ".METRE.")
        size = add(
            "IFCMEASUREWITHUNIT", "IFCLENGTHMEASURE(0.3048)" if unit == "ft" else "IFCLENGTHMEASURE(0.0254)", metre
        )
        exponents = add("IFCDIMENSIONALEXPONENTS", 1, 0, 0, 0, 0, 0, 0)
        return add("IFCCONVERSIONBASEDUNIT", exponents, ".LENGTHUNIT.", "'FOOT'" if unit == "ft" else "'INCH'", size)

    def point(self, *feet: float) -> str:
        """A point, given in feet."""
        return self.file.add("IFCCARTESIANPOINT", [float(value * self.k) for value in feet])

    def placed(self, above: str, x: float, y: float, z: float = 0.0, along: tuple[float, float] = (1.0, 0.0)) -> str:
        """A placement under another one."""
        turned = self.file.add("IFCDIRECTION", (*map(float, along), 0.0))
        axes = self.file.add("IFCAXIS2PLACEMENT3D", self.point(x, y, z), self.up, turned)
        return self.file.add("IFCLOCALPLACEMENT", above, axes)

    def whole(self, storeys: bool, far: tuple[float, float]) -> bytes:
        """The file's bytes."""
        add, root = self.file.add, self.file.root
        project = add("IFCPROJECT", root(), self.owner, "'P'", "$", "$", "$", "$", [self.context], self.units)
        self.ground = self.placed("$", *far)
        site = add(
            "IFCSITE", root(), self.owner, "'S'", "$", "$", self.ground, "$", "$", ".ELEMENT.", "$", "$", "$", "$", "$"
        )
        building = add(
            "IFCBUILDING", root(), self.owner, "'B'", "$", "$", self.ground, "$", "$", ".ELEMENT.", "$", "$", "$"
        )
        add("IFCRELAGGREGATES", root(), self.owner, "$", "$", project, [site])
        add("IFCRELAGGREGATES", root(), self.owner, "$", "$", site, [building])
        holder = building
        if storeys:
            holder = add(
                "IFCBUILDINGSTOREY", root(), self.owner, "'Ground'", "$", "$", self.ground, "$", "$", ".ELEMENT.", 0.0
            )
            add("IFCRELAGGREGATES", root(), self.owner, "$", "$", building, [holder])
        elements = [element for wall in LEVEL["walls"] for element in self._wall(wall)]
        add("IFCRELCONTAINEDINSPATIALSTRUCTURE", root(), self.owner, "$", "$", elements, holder)
        return self.file.text()

    def _wall(self, wall: dict[str, Any]) -> list[str]:
        (ax, ay), (bx, by) = wall["a"], wall["b"]
        length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        along = ((bx - ax) / length, (by - ay) / length)
        place = self.placed(self.ground, ax, ay, 0.0, along)
        shape = self._shape((length, wall["thickness"], HEIGHT))
        kind = "IFCWALLSTANDARDCASE"
        more = () if self.file.schema == "IFC2X3" else ("$",)
        element = self.file.add(
            kind, self.file.root(), self.owner, f"'{wall['id']}'", "$", "$", place, shape, "$", *more
        )
        made = [element]
        for opening in (one for one in LEVEL["openings"] if one["wall"] == wall["id"]):
            made += self._opening(element, place, opening, wall["thickness"])
        return made

    def _opening(self, wall: str, place: str, opening: dict[str, Any], thick: float) -> list[str]:
        add, root = self.file.add, self.file.root
        window, width = opening["kind"] == "window", opening["width"]
        sill, high = (3.0, 3.667) if window else (0.0, 6.667)
        spot = self.placed(place, opening["offset"], 0.0, sill)
        void = ""
        if self.voids:
            more = () if self.file.schema == "IFC2X3" else (".OPENING.",)
            body = self._shape((width, thick + 0.2, high), "extruded")
            void = add("IFCOPENINGELEMENT", root(), self.owner, "$", "$", "$", spot, body, "$", *more)
            add("IFCRELVOIDSELEMENT", root(), self.owner, "$", "$", wall, void)
        if opening["kind"] == "cased":
            return []
        kind = "IFCWINDOW" if window else "IFCDOOR"
        more = () if self.file.schema == "IFC2X3" else ("$", "$", "$")
        sizes = (float(high * self.k), float(width * self.k))
        body = self._shape((width, 0.2, high), "extruded")
        filling = add(kind, root(), self.owner, f"'{opening['id']}'", "$", "$", spot, body, "$", *sizes, *more)
        if void:
            add("IFCRELFILLSELEMENT", root(), self.owner, "$", "$", void, filling)
        return [filling]

    # --- bodies: a box from its near end, its middle on the axis ---

    def _shape(self, box: tuple[float, float, float], body: str = "") -> str:
        body = body or self.body
        items, kind = {
            "extruded": self._extruded,
            "clipped": self._clipped,
            "brep": self._faces,
            "triangles": self._triangles,
            "mapped": self._mapped,
        }[body](box)
        held = self.file.add("IFCSHAPEREPRESENTATION", self.context, "'Body'", kind, items)
        return self.file.add("IFCPRODUCTDEFINITIONSHAPE", "$", "$", [held])

    def _extruded(self, box: tuple[float, float, float]) -> tuple[list[str], str]:
        long, thick, high = box
        middle = self.file.add("IFCCARTESIANPOINT", (float(long / 2 * self.k), 0.0))
        flat = self.file.add("IFCAXIS2PLACEMENT2D", middle, "$")
        sizes = (float(long * self.k), float(thick * self.k))
        profile = self.file.add("IFCRECTANGLEPROFILEDEF", ".AREA.", "$", flat, *sizes)
        return [
            self.file.add("IFCEXTRUDEDAREASOLID", profile, self.world, self.up, float(high * self.k))
        ], "'SweptSolid'"

    def _clipped(self, box: tuple[float, float, float]) -> tuple[list[str], str]:
        """A wall drawn twice as high and cut off by a plane at its height."""
        long, thick, high = box
        tall, _ = self._extruded((long, thick, 2 * high))
        axes = self.file.add("IFCAXIS2PLACEMENT3D", self.point(0, 0, high), self.up, self.east)
        plane = self.file.add("IFCPLANE", axes)
        half = self.file.add("IFCHALFSPACESOLID", plane, ".F.")
        return [self.file.add("IFCBOOLEANCLIPPINGRESULT", ".DIFFERENCE.", tall[0], half)], "'Clipping'"

    def _corners(self, box: tuple[float, float, float]) -> list[tuple[float, float, float]]:
        long, thick, high = box
        flat = ((0.0, -thick / 2), (long, -thick / 2), (long, thick / 2), (0.0, thick / 2))
        return [(x, y, z) for z in (0.0, high) for x, y in flat]

    def _faces(self, box: tuple[float, float, float]) -> tuple[list[str], str]:
        points = [self.point(*corner) for corner in self._corners(box)]
        faces = []
        for ring in ((3, 2, 1, 0), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)):
            loop = self.file.add("IFCPOLYLOOP", [points[index] for index in ring])
            faces.append(self.file.add("IFCFACE", [self.file.add("IFCFACEOUTERBOUND", loop, ".T.")]))
        return [self.file.add("IFCFACETEDBREP", self.file.add("IFCCLOSEDSHELL", faces))], "'Brep'"

    def _triangles(self, box: tuple[float, float, float]) -> tuple[list[str], str]:
        spots = [[float(value * self.k) for value in corner] for corner in self._corners(box)]
        rings = ((4, 3, 2, 1), (5, 6, 7, 8), (1, 2, 6, 5), (2, 3, 7, 6), (3, 4, 8, 7), (4, 1, 5, 8))
        corners = [[[a, b, c], [a, c, d]] for a, b, c, d in rings]
        listed = self.file.add("IFCCARTESIANPOINTLIST3D", spots, *(("$",) if self.file.schema == "IFC4X3" else ()))
        faces = [three for pair in corners for three in pair]
        return [self.file.add("IFCTRIANGULATEDFACESET", listed, "$", ".T.", faces, "$")], "'Tessellation'"

    def _mapped(self, box: tuple[float, float, float]) -> tuple[list[str], str]:
        items, kind = self._faces(box)
        held = self.file.add("IFCSHAPEREPRESENTATION", self.context, "'Body'", kind, items)
        source = self.file.add("IFCREPRESENTATIONMAP", self.world, held)
        target = self.file.add("IFCCARTESIANTRANSFORMATIONOPERATOR3D", "$", "$", self.point(0, 0, 0), "$", "$")
        return [self.file.add("IFCMAPPEDITEM", source, target)], "'MappedRepresentation'"


def wall_with_opening_and_window() -> bytes:
    """The measures of "wall with opening and window", a worked example of the standard (IFC4, ISO 16739-1, annex E), in
    lines of our own: angles in degrees, the wall off its axis by its layer set, the window placed in its opening.
    """
    file = StepFile("IFC4")
    add = file.add
    millimetres = add("IFCSIUNIT", "*", ".LENGTHUNIT.", ".MILLI.", ".METRE.")
    radian = add("IFCSIUNIT", "*", ".PLANEANGLEUNIT.", "$", ".RADIAN.")
    degrees = add("IFCMEASUREWITHUNIT", "IFCPLANEANGLEMEASURE(1.745E-2)", radian)
    none = add("IFCDIMENSIONALEXPONENTS", 0, 0, 0, 0, 0, 0, 0)
    units = add(
        "IFCUNITASSIGNMENT",
        [millimetres, add("IFCCONVERSIONBASEDUNIT", none, ".PLANEANGLEUNIT.", "'DEGREE'", degrees)],
    )
    up = add("IFCDIRECTION", [0.0, 0.0, 1.0])

    def at(x: float, y: float, z: float) -> str:
        return add("IFCAXIS2PLACEMENT3D", add("IFCCARTESIANPOINT", [x, y, z]), "$", "$")

    space = add("IFCGEOMETRICREPRESENTATIONCONTEXT", "$", "'Model'", 3, 1e-5, at(0.0, 0.0, 0.0), "$")

    def line(*corners: tuple[float, float]) -> str:
        return add("IFCPOLYLINE", [add("IFCCARTESIANPOINT", list(corner)) for corner in corners])

    def box(wide: float, deep: float, high: float) -> str:
        outline = line((0.0, 0.0), (0.0, deep), (wide, deep), (wide, 0.0), (0.0, 0.0))
        profile = add("IFCARBITRARYCLOSEDPROFILEDEF", ".AREA.", "$", outline)
        solid = add("IFCEXTRUDEDAREASOLID", profile, at(0.0, 0.0, 0.0), up, high)
        return add("IFCSHAPEREPRESENTATION", space, "'Body'", "'SweptSolid'", [solid])

    def shape(*parts: str) -> str:
        return add("IFCPRODUCTDEFINITIONSHAPE", "$", "$", list(parts))

    project = add("IFCPROJECT", file.root(), "$", "'P'", "$", "$", "$", "$", [space], units)
    place = add("IFCLOCALPLACEMENT", "$", at(0.0, 0.0, 0.0))
    building = add("IFCBUILDING", file.root(), *["$", "'B'", "$", "$", place, "$", "$", ".ELEMENT.", "$", "$", "$"])
    storey = add("IFCBUILDINGSTOREY", file.root(), *["$", "'Storey'", "$", "$", place, "$", "$", ".ELEMENT.", 0.0])
    add("IFCRELAGGREGATES", file.root(), "$", "$", "$", project, [building])
    add("IFCRELAGGREGATES", file.root(), "$", "$", "$", building, [storey])
    axis = add("IFCSHAPEREPRESENTATION", space, "'Axis'", "'Curve2D'", [line((0.0, 150.0), (3000.0, 150.0))])
    body = shape(axis, box(3000.0, 300.0, 2000.0))
    wall = add("IFCWALL", file.root(), "$", "'Wall'", "$", "$", place, body, "$", "$")
    layer = add("IFCMATERIALLAYER", add("IFCMATERIAL", "'M'", "$", "$"), 300.0, "$", "$", "$", "$", "$")
    layers = add("IFCMATERIALLAYERSET", [layer], "$", "$")
    usage = add("IFCMATERIALLAYERSETUSAGE", layers, ".AXIS2.", ".POSITIVE.", -150.0, "$")
    add("IFCRELASSOCIATESMATERIAL", file.root(), "$", "$", "$", [wall], usage)
    hole = add("IFCLOCALPLACEMENT", place, at(1000.0, 0.0, 500.0))
    void = shape(box(1000.0, 300.0, 1000.0))
    opening = add("IFCOPENINGELEMENT", file.root(), "$", "'O'", "$", "$", hole, void, "$", ".OPENING.")
    add("IFCRELVOIDSELEMENT", file.root(), "$", "$", "$", wall, opening)
    inside = add("IFCLOCALPLACEMENT", hole, at(0.0, 50.0, 0.0))
    pane = shape(box(1000.0, 200.0, 1000.0))
    kind = [1000.0, 1000.0, ".WINDOW.", ".SINGLE_PANEL.", "$"]
    window = add("IFCWINDOW", file.root(), "$", "'W'", "$", "$", inside, pane, "$", *kind)
    add("IFCRELFILLSELEMENT", file.root(), "$", "$", "$", opening, window)
    add("IFCRELCONTAINEDINSPATIALSTRUCTURE", file.root(), "$", "$", "$", [wall, window], storey)
    return file.text()
