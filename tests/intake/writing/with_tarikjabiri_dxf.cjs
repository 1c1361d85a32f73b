// Plum Lane drawn with the npm package @tarikjabiri/dxf 2.9.0 (MIT): inches, doors as one block inserted turned and
// mirrored by a negative scale, windows as a block stretched to their width, a dimension that no wall is made of.
// node with_tarikjabiri_dxf.cjs SHAPES.json OUT.dxf
const { DxfWriter, point3d, Units, LWPolylineFlags } = require("@tarikjabiri/dxf");
const fs = require("fs");
const shapes = JSON.parse(fs.readFileSync(process.argv[2]));
const put = ([x, y]) => point3d(x * 12, y * 12);
const dxf = new DxfWriter();
dxf.setUnits(Units.Inches);
for (const name of ["A-WALL", "A-DOOR", "A-GLAZ", "A-AREA-IDEN", "A-ANNO-DIMS"]) dxf.addLayer(name, 7, "Continuous");
const door = dxf.addBlock("DOOR-LEAF"); // hinge at its origin, one inch wide, opening to the left
door.addLine(point3d(0, 0), point3d(0, 1));
door.addArc(point3d(0, 0), 1, 0, 90);
const sash = dxf.addBlock("WINDOW");
for (const y of [-3, -0.75, 0.75, 3]) sash.addLine(point3d(0, y), point3d(1, y));
let skip = 0;
for (const [index, shape] of shapes.entries()) {
  const on = { layerName: shape.layer };
  if (shape.kind === "ring") dxf.addLWPolyline(shape.spots.map((spot) => ({ point: put(spot) })), { ...on, flags: LWPolylineFlags.Closed });
  if (shape.kind === "text") dxf.addText(put(shape.at), shape.height * 12, shape.text, on);
  if (shape.kind === "arc") {
    const size = shape.radius * 12;
    // the leaf stands where the line before it ends: at the arc's end, or at its start for a door mirrored
    const leaf = shapes[index - 1].spots[1];
    const toLeaf = (Math.atan2(leaf[1] - shape.centre[1], leaf[0] - shape.centre[0]) * 180) / Math.PI;
    const mirrored = Math.abs(((toLeaf - shape.start) % 360 + 360) % 360) < 1;
    dxf.addInsert("DOOR-LEAF", put(shape.centre), { ...on, scaleFactor: { x: mirrored ? -size : size, y: size, z: 1 }, rotationAngle: mirrored ? shape.start - 90 : shape.start });
  }
  if (shape.kind === "line" && shape.layer === "A-DOOR" && shapes[index + 1]?.kind !== "arc") dxf.addLine(put(shape.spots[0]), put(shape.spots[1]), on);
  if (shape.kind === "line" && shape.layer === "A-GLAZ") {
    if (skip > 0) { skip -= 1; continue; }
    const [a, b] = shape.spots;
    const width = Math.hypot(b[0] - a[0], b[1] - a[1]) * 12;
    if (width < 6) continue; // a mullion
    const last = shapes[index + 3].spots[0];
    const turn = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    dxf.addInsert("WINDOW", put([(a[0] + last[0]) / 2, (a[1] + last[1]) / 2]), { ...on, scaleFactor: { x: width, y: 1, z: 1 }, rotationAngle: turn });
    skip = 3;
  }
}
dxf.addAlignedDim(point3d(0, -60), point3d(408, -60), { layerName: "A-ANNO-DIMS" });
fs.writeFileSync(process.argv[3], dxf.stringify());
