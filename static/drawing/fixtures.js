/**
 * Obstructions as lightly hatched outlines with their name, and the points that rules look at as small signs.
 */

/** @import { Fixture, FixtureKind, Level, Wall } from "../plan/types.js" */
/** @import { Box } from "./tags.js" */

import { boxOf } from "../geometry/points.js";
import { middleOf } from "../plan/lookup.js";
import { furnitureLines } from "./furniture_lines.js";
import { make, onPaper, through } from "./svg.js";
import { overlap } from "./tags.js";

/** @typedef {Exclude<FixtureKind, "obstruction">} PointKind */

/** @type {Record<PointKind, string>} */
const SIGN_SHAPES = {
  light_switch: "M-5 0A5 5 0 1 1 5 0A5 5 0 1 1 -5 0",
  chime: "M-7 0A7 7 0 1 1 7 0A7 7 0 1 1 -7 0",
  supply_register: "M-8 -4H8V4H-8ZM-4 -4V4M0 -4V4M4 -4V4",
  bed: "M-11 -6H11V6H-11Z",
  outlet: "M-4.5 0A4.5 4.5 0 1 1 4.5 0A4.5 4.5 0 1 1 -4.5 0M-1.5 -7V7M1.5 -7V7",
};
/** @type {Partial<Record<PointKind, string>>} */
const SIGN_LETTERS = { light_switch: "S", chime: "CH", bed: "BED" };

const LABELLED = 8; // px a foot: from farther off furniture stands without words

/** @param {Level} level @param {number} scale px a foot @param {Box[]} taken what stands where, in pixels: no label goes under it */
export function drawObstructions(level, scale, taken) {
  return (level.fixtures ?? []).flatMap((fixture) => (fixture.polygon ? [drawObstruction(fixture, scale, taken, level.walls ?? [])] : []));
}

/** @param {Level} level */
export function drawSigns(level) {
  return (level.fixtures ?? []).flatMap((fixture) => (fixture.at ? [drawSign(fixture)] : []));
}

/** @param {Fixture} fixture @param {number} scale @param {Box[]} taken @param {Wall[]} walls */
export function drawObstruction(fixture, scale, taken, walls) {
  const ring = fixture.polygon ?? [];
  const box = boxOf(ring);
  const room = box ? (box.right - box.left) * scale : 0;
  const label = fixture.label ?? "";
  const middle = middleOf(ring);
  const own = { x: middle[0] * scale, y: -middle[1] * scale, w: label.length * 5.2, h: 12 };
  const fits = label && scale >= LABELLED && !taken.some((other) => overlap(own, other) > 0) && room > label.length * 5.2 + 6 && box && (box.top - box.bottom) * scale > 13;
  const lines = furnitureLines(fixture, walls);
  const hanging = (fixture.base ?? 0) > 0.01;
  return make("g", { class: `fixture obstruction${hanging ? " hanging" : ""}`, "data-id": fixture.id, "data-family": "fixtures" }, [
    make("title", {}, [label || `Obstruction ${fixture.id}`]),
    make("path", { class: "body", d: through(ring, true) }),
    ...(lines ? [make("path", { class: "piece-lines", d: lines })] : []),
    ...(fits ? [onPaper(middle, [make("text", { class: "small-word", y: 3.5 }, [label])])] : []),
  ]);
}

/** @param {Fixture} fixture */
function drawSign(fixture) {
  return onPaper(fixture.at ?? [0, 0], [
    make("title", {}, [fixture.label || fixture.kind.replace("_", " ")]),
    make("circle", { class: "reach-area", r: 12 }),
    ...signOf(/** @type {PointKind} */ (fixture.kind)),
  ], { class: "fixture sign-at", "data-id": fixture.id, "data-family": "fixtures" });
}

/** A kind's small sign about the origin, in pixels. @param {PointKind} kind */
export function signOf(kind) {
  const letters = SIGN_LETTERS[kind];
  return [
    make("path", { class: "sign", d: SIGN_SHAPES[kind] }),
    ...(letters ? [make("text", { class: "sign-word", y: 3 }, [letters])] : []),
  ];
}
