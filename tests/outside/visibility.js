// Reads [{position, segments}, …] from standard input and prints each one's visibility polygon.
// npm package "visibility-polygon", found by way of NODE_PATH.
const { breakIntersections, compute } = require("visibility-polygon");

const cases = JSON.parse(require("fs").readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(cases.map(({ position, segments }) => compute(position, breakIntersections(segments)))));
