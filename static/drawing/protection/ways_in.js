/**
 * One way in on the drawing: from the opening to the goal, unseen until the first who notices; where, by whom and
 * after how many feet it is noticed; the other goals' walks thin.
 */

/** @import { ArmingState, WayIn } from "../../plan/protection_types.js" */
/** @import { Device, Level, Plan } from "../../plan/types.js" */

import { make, segment } from "../svg.js";
import { Places, sign } from "./labels.js";
import { line, numbered, placeAfter, stairs, stop, stretch } from "./walk_lines.js";

/**
 * @param {WayIn} way @param {WayIn[]} others from the same opening @param {ArmingState} state @param {Plan} plan
 * @param {Level} level in view @param {number} scale px a foot
 * @param {{feet: (value: number) => string, tag: (device: string) => string, goal: string}} words
 */
export function drawWayIn(way, others, state, plan, level, scale, words) {
  const seen = way[state];
  const places = new Places(scale);
  for (const device of level.devices ?? []) places.keep(device.at, 12);
  const end = placeAfter(way, level.id, way.feet);
  const start = placeAfter(way, level.id, 0);
  for (const place of [start, end]) if (place) places.keep(place, 11);
  const unseen = seen.first ? seen.unseen_ft : way.feet;
  const stops = numbered(seen.notices).flatMap(({ notice, text }) => {
    const at = placeAfter(way, level.id, notice.feet);
    return at ? [{ at, notice, text }] : [];
  });
  for (const one of stops) places.keep(one.at, 11);
  return [
    ...others.filter((other) => other !== way).flatMap((other) => stretch(other, level.id, 0, other.feet).map((part) => line([part], "other")[1])).filter((part) => part !== undefined),
    ...line(stretch(way, level.id, unseen, way.feet), "noticed"),
    ...line(stretch(way, level.id, 0, unseen), "unseen"),
    ...stops.flatMap(({ at, notice }) => sightLine(plan.levels, level.id, notice.device, at)),
    ...stairs(way, plan.levels, level.id),
    ...(end ? [stop(end, "◎", "goal")] : []),
    ...(start ? [stop(start, "▸", "start")] : []),
    ...stops.map(({ at, text }) => stop(at, text, "notice")),
    ...stops.flatMap(({ at, notice }) => placed(places, at, `${words.tag(notice.device)} ${HOW[notice.how] ?? notice.how} · ${words.feet(notice.feet)}`, "noticed")),
    ...unseenSign(way, level, unseen, places, words),
    ...(end ? placed(places, end, words.goal, "goal") : []),
  ];
}

/** @type {Record<string, string>} how a device notices */
export const HOW = { opened: "opened", broken: "hears glass", "door opened": "door opened", seen: "sees" };

/** @param {Places} places @param {import("../../plan/types.js").Point} at @param {string} words @param {string} kind */
function placed(places, at, words, kind) {
  const side = words.length * 3.2 + 26;
  const place = places.free(words, [[0, -24], [0, 24], [side, 0], [-side, 0], [side / 2, -30], [-side / 2, 30], [0, -44], [0, 44]].map(([x, y]) => ({ at, by: /** @type {[number, number]} */ ([x ?? 0, y ?? 0]) })));
  return place ? [sign(at, words, kind, place.by)] : [];
}

/** @param {WayIn} way @param {Level} level @param {number} unseen @param {Places} places @param {{feet: (value: number) => string}} words */
function unseenSign(way, level, unseen, places, words) {
  if (unseen < 0.05) return [];
  for (const share of [0.5, 0.35, 0.65, 0.2, 0.8]) {
    const at = placeAfter(way, level.id, unseen * share);
    const told = at ? placed(places, at, `${words.feet(unseen)} unseen`, "unseen") : [];
    if (told.length) return told;
  }
  return [];
}

/** From the device that notices to where. @param {Level[]} levels @param {string} levelId @param {string} device @param {[number, number]} at */
function sightLine(levels, levelId, device, at) {
  const found = /** @type {Device | undefined} */ (levels.find((level) => level.id === levelId)?.devices?.find((entry) => entry.id === device));
  return found ? [make("path", { class: "guard-line chosen-line", d: segment(found.at, at) })] : [];
}
