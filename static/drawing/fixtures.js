/**
 * Obstructions as lightly hatched outlines with their name, and the points that rules look at as small signs.
 */

/** @import { Fixture, FixtureKind, Level } from "../plan/types.js" */

import { boxOf } from "../geometry/points.js";
import { middleOf } from "../plan/lookup.js";
import { make, onPaper, through } from "./svg.js";

/** @type {Record<Exclude<FixtureKind, "obstruction">, string>} letters in the small sign */
export const FIXTURE_SIGNS = { light_switch: "S", chime: "CH", supply_register: "SR", bed: "BED", outlet: "O" };

/** @param {Level} level @param {number} scale px a foot */
export function drawFixtures(level, scale) {
  return (level.fixtures ?? []).flatMap((fixture) => {
    if (fixture.polygon) return [drawObstruction(fixture, scale)];
    return fixture.at ? [drawSign(fixture)] : [];
  });
}

/** @param {Fixture} fixture @param {number} scale */
function drawObstruction(fixture, scale) {
  const ring = fixture.polygon ?? [];
  const box = boxOf(ring);
  const room = box ? (box.right - box.left) * scale : 0;
  const label = fixture.label ?? "";
  const fits = label && room > label.length * 5.2 + 6 && box && (box.top - box.bottom) * scale > 13;
  const hanging = (fixture.base ?? 0) > 0.01;
  return make("g", { class: `fixture obstruction${hanging ? " hanging" : ""}`, "data-id": fixture.id, "data-family": "fixtures" }, [
    make("title", {}, [label || `Obstruction ${fixture.id}`]),
    make("path", { class: "body", d: through(ring, true) }),
    ...(fits ? [onPaper(middleOf(ring), [make("text", { class: "small-word", y: 3.5 }, [label])])] : []),
  ]);
}

/** @param {Fixture} fixture */
function drawSign(fixture) {
  const sign = FIXTURE_SIGNS[/** @type {Exclude<FixtureKind, "obstruction">} */ (fixture.kind)] ?? "?";
  const wide = 6 + sign.length * 3.2;
  return onPaper(fixture.at ?? [0, 0], [
    make("title", {}, [fixture.label || fixture.kind.replace("_", " ")]),
    make("circle", { class: "reach-area", r: 13 }),
    make("rect", { class: "sign", x: -wide, y: -7, width: 2 * wide, height: 14, rx: 3 }),
    make("text", { class: "sign-word", y: 3.5 }, [sign]),
  ], { class: "fixture sign-at", "data-id": fixture.id, "data-family": "fixtures" });
}
