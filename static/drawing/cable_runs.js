/**
 * The home runs of the level in view: bundles as heavy as they are thick, with their counts; the chosen runs on top;
 * risers; and a mark at every device that reaches no can.
 */

/** @import { Bundle, CableAnswer, Pull, Spot } from "../plan/cable_types.js" */
/** @import { Plan, Point, Riser } from "../plan/types.js" */
/** @import { TagPlace } from "./tags.js" */

import { between, distance } from "../geometry/points.js";
import { make, onPaper, segment, through } from "./svg.js";

const LEAST_FOR_COUNT = 30; // px of a bundle that has room for its count
const SAME = 1e-3; // ft

/**
 * @param {CableAnswer} answer @param {Plan} plan @param {string} levelId @param {Set<string>} chosen labels of pulls
 * @param {number} scale px a foot @param {(at: Point, words: string) => TagPlace} place of a riser's tag
 */
export function drawCable(answer, plan, levelId, chosen, scale, place) {
  const bundles = answer.bundles.filter((bundle) => bundle.level === levelId);
  const run = runHeights(answer).get(levelId);
  const routes = answer.pulls.filter((pull) => chosen.has(pull.label));
  return [
    make("g", { class: chosen.size ? "runs quieter" : "runs" }, bundles.map(drawBundle)),
    make("g", { class: "runs-chosen" }, run === undefined ? [] : routes.flatMap((pull) => drawRoute(pull, run))),
    make("g", { class: "run-counts" }, counted(answer, levelId, scale).map(drawCount)),
    make("g", { class: "no-ways" }, answer.pulls.filter((pull) => pull.level === levelId && !pull.route).map((pull) => drawNoWay(pull, plan))),
    ...(plan.risers ?? []).filter((riser) => riser.from === levelId || riser.to === levelId).map((riser) => drawRiser(riser, plan, levelId, answer, place)),
  ];
}

/** Run heights above the datum by level. @param {CableAnswer} answer @returns {Map<string, number>} */
function runHeights(answer) {
  return new Map(answer.bundles.flatMap((bundle) => (bundle.level === null ? [] : [/** @type {[string, number]} */ ([bundle.level, bundle.z])])));
}

/** The bundles that have room for their count. @param {CableAnswer} answer @param {string} levelId @param {number} scale px a foot */
export const counted = (answer, levelId, scale) => answer.bundles.filter((bundle) => bundle.level === levelId && bundle.count > 1 && length(bundle) * scale > LEAST_FOR_COUNT);

/** @param {Bundle} bundle px */
export const countWidth = (bundle) => 8 + 7 * String(bundle.count).length;

/** @param {Bundle} bundle */
const length = (bundle) => distance(bundle.segment[0], bundle.segment[1]);

/** @param {Bundle} bundle */
function drawBundle(bundle) {
  const words = `${bundle.count} cable${bundle.count === 1 ? "" : "s"}: ${Object.entries(bundle.cables).map(([cable, count]) => `${count} × ${cable}`).join(", ")}`;
  return make("path", { class: "run", d: segment(...bundle.segment), "stroke-width": (1.4 + 1.1 * Math.log2(bundle.count)).toFixed(2) }, [make("title", {}, [words])]);
}

/** @param {Bundle} bundle */
function drawCount(bundle) {
  const text = String(bundle.count);
  const width = countWidth(bundle);
  return onPaper(between(bundle.segment[0], bundle.segment[1], 0.5), [
    make("rect", { x: -width / 2, y: -8, width, height: 16, rx: 8 }),
    make("text", { y: 4 }, [text]),
  ], { class: "run-count" });
}

/** The stretches of a route at one height. @param {Pull} pull @param {number} run @returns {SVGElement[]} */
function drawRoute(pull, run) {
  const parts = levelStretches(pull.route ?? [], run);
  return parts.flatMap((part) => ["casing", "core"].map((kind) => make("path", { class: `run-chosen ${kind}`, d: through(part) })));
}

/** @param {Spot[]} route @param {number} run @returns {Point[][]} polylines */
export function levelStretches(route, run) {
  /** @type {Point[][]} */
  const parts = [];
  let open = false;
  for (const [x, y, z] of route) {
    const here = Math.abs(z - run) < SAME;
    if (here && open) parts.at(-1)?.push([x, y]);
    else if (here) parts.push([[x, y]]);
    open = here;
  }
  return parts.filter((part) => part.length > 1);
}

/** @param {Pull} pull @param {Plan} plan */
function drawNoWay(pull, plan) {
  const at = plan.levels.flatMap((level) => level.devices ?? []).find((device) => device.id === pull.device)?.at ?? [0, 0];
  return onPaper(at, [make("circle", { class: "no-way", r: 15 }), make("text", { class: "no-way-word", y: -19 }, ["no way to a can"])]);
}

/** @param {Riser} riser @param {Plan} plan @param {string} levelId @param {CableAnswer} answer @param {(at: Point, words: string) => TagPlace} place */
function drawRiser(riser, plan, levelId, answer, place) {
  const height = (/** @type {string} */ id) => plan.levels.find((level) => level.id === id)?.elevation ?? 0;
  const other = riser.from === levelId ? riser.to : riser.from;
  const up = height(other) > height(levelId);
  const cables = answer.rough_in.holes.find((hole) => hole.thing === riser.id)?.cables ?? {};
  const count = Object.values(cables).reduce((sum, one) => sum + one, 0);
  const name = plan.levels.find((level) => level.id === other)?.name ?? other;
  const tag = `${riser.id} · ${count}`;
  const { dx, dy, anchor } = place(riser.at, tag);
  return onPaper(riser.at, [
    make("rect", { class: "reach-area", x: -14, y: -14, width: 28, height: 28 }),
    make("rect", { class: "riser-box", x: -8, y: -8, width: 16, height: 16 }),
    make("path", { class: "riser-arrow", d: up ? "M0 -5L5 4H-5Z" : "M0 5L5 -4H-5Z" }),
    make("text", { class: "tag", x: dx, y: dy, "text-anchor": anchor }, [tag]),
    make("title", {}, [`Riser ${riser.id} ${up ? "up" : "down"} to ${name}: ${count} cable${count === 1 ? "" : "s"}; drag to move`]),
  ], { class: "riser", "data-handle": "riser", "data-id": riser.id });
}
