// Plum Lane drawn with the npm package dxf-writer 1.18.4 (MIT): millimetres, walls as polylines, all else as lines.
// node with_dxf_writer.cjs SHAPES.json OUT.dxf
const Drawing = require("dxf-writer");
const fs = require("fs");
const shapes = JSON.parse(fs.readFileSync(process.argv[2]));
const MM = 304.8;
const put = ([x, y]) => [x * MM + 12000, y * MM - 4500];
const drawing = new Drawing();
drawing.setUnits("Millimeters");
for (const [name, colour] of [["A-WALL", 7], ["A-DOOR", 1], ["A-GLAZ", 5], ["A-AREA-IDEN", 3], ["A-STAIR", 2]]) drawing.addLayer(name, Drawing.ACI[Object.keys(Drawing.ACI)[colour]], "CONTINUOUS");
for (const shape of shapes) {
  drawing.setActiveLayer(shape.layer);
  if (shape.kind === "ring") drawing.drawPolyline(shape.spots.map(put), true);
  if (shape.kind === "line") drawing.drawLine(...put(shape.spots[0]), ...put(shape.spots[1]));
  if (shape.kind === "arc") drawing.drawArc(...put(shape.centre), shape.radius * MM, shape.start, shape.end);
  if (shape.kind === "text") drawing.drawText(...put(shape.at), shape.height * MM, 0, shape.text, "center", "middle");
}
fs.writeFileSync(process.argv[3], drawing.toDxfString());
