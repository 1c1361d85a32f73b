/**
 * One way in on the drawing: from the opening to the goal, unseen until the first who notices; where, by whom and
 * after how many feet it is noticed; the other goals' walks thin.
 */

/** @import { ArmingState, WayIn } from "../../plan/protection_types.js" */
/** @import { Device, Level, Plan } from "../../plan/types.js" */
/** @import { View } from "../view.js" */

import { make, segment } from "../svg.js";
import { Places, signNear } from "./labels.js";
import { line, numbered, placeAfter, stairs, start, stop, stretch } from "./walk_lines.js";

/**
 * @param {WayIn} way @param {WayIn[]} others from the same opening @param {ArmingState} state @param {Plan} plan
 * @param {Level} level in view @param {View} view
 * @param {{feet: (value: number) => string, tag: (device: string) => string}} words
 */
export function drawWayIn(way, others, state, plan, level, view, words) {
  const seen = way[state];
  const places = new Places(view);
  const end = placeAfter(way, level.id, way.feet);
  if (end) places.keep(end, 11);
  const unseen = seen.first ? seen.unseen_ft : way.feet;
  const stops = numbered(seen.notices).flatMap(({ notice, text }) => {
    const at = placeAfter(way, level.id, notice.feet);
    return at ? [{ at, notice, text }] : [];
  });
  for (const one of stops) places.keep(one.at, 11);
  return [
    ...others.filter((other) => other !== way).flatMap((other) => stretch(other, level.id, 0, other.feet).flatMap((part) => line([part], "other").slice(1))),
    ...line(stretch(way, level.id, unseen, way.feet), "noticed"),
    ...line(stretch(way, level.id, 0, unseen), "unseen"),
    ...stops.flatMap(({ at, notice }) => sightLine(plan.levels, level.id, notice.device, at)),
    ...start(way, way.opening, level, "start", places),
    ...(end ? [stop(end, "◎", "goal")] : []),
    ...stops.map(({ at, text }) => stop(at, text, "notice")),
    ...stops.flatMap(({ at, notice }) => signNear(places, at, `${words.tag(notice.device)} ${HOW[notice.how] ?? notice.how}${notice.feet < 0.05 ? "" : ` · ${words.feet(notice.feet)}`}`, "noticed")),
    ...unseenSign(way, level, unseen, places, words),
    ...stairs(way, plan.levels, level.id, places),
  ];
}

/** @type {Record<string, string>} how a device notices */
export const HOW = { opened: "opened", broken: "hears glass", "door opened": "door opened", seen: "sees" };

/** @param {WayIn} way @param {Level} level @param {number} unseen @param {Places} places @param {{feet: (value: number) => string}} words */
function unseenSign(way, level, unseen, places, words) {
  if (unseen < 0.05) return [];
  for (const share of [0.5, 0.35, 0.65, 0.2, 0.8]) {
    const at = placeAfter(way, level.id, unseen * share);
    const told = at ? signNear(places, at, `${words.feet(unseen)} unseen`, "unseen") : [];
    if (told.length) return told;
  }
  return [];
}

/** From the device that notices to where. @param {Level[]} levels @param {string} levelId @param {string} device @param {[number, number]} at */
function sightLine(levels, levelId, device, at) {
  const found = /** @type {Device | undefined} */ (levels.find((level) => level.id === levelId)?.devices?.find((entry) => entry.id === device));
  return found ? [make("path", { class: "guard-line chosen-line", d: segment(found.at, at) })] : [];
}
