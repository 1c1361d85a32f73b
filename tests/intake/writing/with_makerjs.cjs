// Plum Lane drawn with the npm package makerjs 0.19.2 (Apache-2.0): metres, every shape a line or arc, no texts.
// node with_makerjs.cjs SHAPES.json OUT.dxf
const makerjs = require("makerjs");
const fs = require("fs");
const shapes = JSON.parse(fs.readFileSync(process.argv[2]));
const put = ([x, y]) => [x * 0.3048, y * 0.3048];
const model = { units: makerjs.unitType.Meter, paths: {} };
let count = 0;
const add = (path, layer) => { path.layer = layer; model.paths[`p${++count}`] = path; };
for (const shape of shapes) {
  if (shape.kind === "ring") shape.spots.forEach((spot, k) => add(new makerjs.paths.Line(put(spot), put(shape.spots[(k + 1) % shape.spots.length])), "walls"));
  if (shape.kind === "line") add(new makerjs.paths.Line(...shape.spots.map(put)), { "A-DOOR": "doors", "A-GLAZ": "windows", "A-STAIR": "stairs" }[shape.layer]);
  if (shape.kind === "arc") add(new makerjs.paths.Arc(put(shape.centre), shape.radius * 0.3048, shape.start, shape.end), "doors");
}
fs.writeFileSync(process.argv[3], makerjs.exporter.toDXF(model, { units: makerjs.unitType.Meter }));
