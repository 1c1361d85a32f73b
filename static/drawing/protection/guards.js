/**
 * What guards what in stay or in away: openings by how they are told, lines from the detectors that tell them, floor
 * that motion watches or that stay leaves unwatched, and a word in each room.
 */

/** @import { ArmingState, OpeningStates, ProtectionAnswer, RoomStates } from "../../plan/protection_types.js" */
/** @import { CheckAnswer, Level, Point } from "../../plan/types.js" */
/** @import { View } from "../view.js" */
/** @import { Spot } from "./labels.js" */

import { between, direction, inside, leftOf, plus, times } from "../../geometry/points.js";
import { wallOf } from "../../plan/lookup.js";
import { make, onPaper, segment, through } from "../svg.js";
import { hatches } from "./hatches.js";
import { Places, sign, signNear, widthOf } from "./labels.js";
import { WATCHES } from "./watch_marks.js";

const FAR = 7; // px a foot
const OUT = 12; // px from a wall's face to an opening's mark

/** @typedef {{answer: ProtectionAnswer, check: CheckAnswer | null, level: Level, state: ArmingState, chosen: Set<string>, view: View}} Seen */

/** Floors, under the walls. @param {Seen} seen */
export function drawGuardedFloors({ answer, check, level, state }) {
  const outlines = (check?.motions ?? []).filter((motion) => motion.level === level.id).flatMap((motion) => motion.outline ?? []);
  const bare = answer.states.rooms.filter((room) => room.level === level.id && room.openings.length && !room[state].length);
  const floors = bare.flatMap((room) => check?.rooms.find((entry) => entry.id === room.id)?.outline ?? []);
  return [
    hatches(),
    make("path", { class: "floor-bare", d: floors.map((ring) => through(ring, true)).join("") }),
    make("path", { class: state === "away" ? "floor-watched" : "floor-off", d: outlines.map((ring) => through(ring, true)).join("") }),
  ];
}

/** Openings, lines and words, over the walls. @param {Seen} seen */
export function drawGuards(seen) {
  const { answer, level, state, chosen, check, view } = seen;
  const openings = answer.states.openings.filter((opening) => opening.level === level.id);
  const faces = check?.levels?.find((entry) => entry.id === level.id)?.faces ?? [];
  const places = new Places(view);
  const marks = openings.map((opening) => drawOpening(opening, thicknessAt(level, opening.id), state, faces, places));
  return [
    make("g", { class: "guard-lines" }, openings.flatMap((opening) => linesOf(opening, level, state, chosen.has(opening.id)))),
    ...marks,
    ...answer.states.rooms.filter((room) => room.level === level.id).flatMap((room) => roomSign(room, seen, places)),
    ...(state === "stay" ? offMarks(level, places) : []),
  ];
}

/** From each detector that tells of an opening to it. @param {OpeningStates} opening @param {Level} level @param {ArmingState} state @param {boolean} chosen */
function linesOf(opening, level, state, chosen) {
  const watchers = [...opening.listeners, ...(opening[state] === "inside" ? opening.motions : [])];
  const middle = between(...opening.segment, 0.5);
  return watchers.flatMap((id) => {
    const device = level.devices?.find((entry) => entry.id === id);
    return device ? [make("path", { class: `guard-line${chosen ? " chosen-line" : ""}`, d: segment(device.at, middle) })] : [];
  });
}

/** @param {Level} level @param {string} id of an opening @returns {number} feet */
function thicknessAt(level, id) {
  const opening = level.openings?.find((entry) => entry.id === id);
  return (opening && wallOf(level, opening.wall)?.thickness) ?? 0.375;
}

/** @param {OpeningStates} opening @param {number} thick of its wall, ft @param {ArmingState} state @param {Point[][]} faces @param {Places} places */
function drawOpening(opening, thick, state, faces, places) {
  const watch = WATCHES[opening[state]];
  const [a, b] = opening.segment;
  const middle = between(a, b, 0.5);
  const by = places.forMark(10, markSpots(middle, outward(a, b, faces), direction(a, b), ((thick / 2) * places.view.scale) / places.share + OUT)).by;
  const guarded = opening[state] === "at the opening";
  const bare = guarded && places.view.scale < FAR; // seen from far its solid bar says enough
  const words = guarded ? [] : signNear(places, places.onPlan({ at: middle, by }), watch.words, watch.kind);
  return make("g", { class: `guarded watch-${watch.kind}` }, [
    make("path", { class: "bar", d: segment(a, b) }),
    make("path", { class: "bar-core", d: segment(a, b) }),
    ...(bare ? [] : [onPaper(middle, [
      make("circle", { class: "badge", cx: by[0], cy: by[1], r: 8 }),
      make("path", { class: "badge-mark", d: watch.mark, transform: `translate(${by[0].toFixed(1)} ${by[1].toFixed(1)}) scale(4.4)` }),
    ])]),
    ...words,
    make("title", {}, [`${opening.id}: ${watch.words}`]),
  ]);
}

/** The way out of the house, square to an opening. @param {Point} a @param {Point} b @param {Point[][]} faces @returns {Point} */
function outward(a, b, faces) {
  const left = leftOf(direction(a, b));
  const probe = plus(between(a, b, 0.5), left);
  return faces.some((face) => inside(probe, face)) ? times(left, -1) : left;
}

/** Outside an opening, farther out or along it where something lies there. @param {Point} at @param {Point} out @param {Point} along @param {number} near px @returns {[Spot, ...Spot[]]} */
function markSpots(at, out, along, near) {
  const spot = (/** @type {number} */ far, /** @type {number} */ aside) => ({ at, by: /** @type {Point} */ ([out[0] * far + along[0] * aside, -out[1] * far - along[1] * aside]) });
  return [spot(near, 0), ...[20, -20, 36, -36].map((aside) => spot(near, aside)), spot(near + 18, 0), ...[20, -20].map((aside) => spot(near + 18, aside))];
}

/** A room's words where they have room in it. @param {RoomStates} room @param {Seen} seen @param {Places} places */
function roomSign(room, { level, state, answer, check }, places) {
  const at = level.rooms?.find((entry) => entry.id === room.id)?.at;
  const rings = check?.rooms.find((entry) => entry.id === room.id)?.outline ?? [];
  if (!at || (!room.openings.length && (state === "stay" || !room.motion_fraction))) return [];
  const words = roomWords(room, answer.states.openings, state);
  const half = widthOf(words) / 2 - 4;
  const within = (/** @type {Point} */ [x, y]) => [-half, 0, half].every((aside) => rings.some((ring) => inside(places.onPlan({ at, by: [x + aside, y] }), ring)));
  const spots = [34, 48, -26, 62, -40, 76, -60, 92].flatMap((y) => [0, 40, -40, 75, -75].map((x) => /** @type {Point} */ ([x, y]))).filter(within);
  const spot = places.forWords(words, spots.map((by) => ({ at, by })));
  return spot ? [sign(at, words, room.openings.length && !room[state].length ? "nothing" : "room", spot.by)] : [];
}

/** How a room is watched, in a few words. @param {RoomStates} room @param {OpeningStates[]} openings @param {ArmingState} state */
export function roomWords(room, openings, state) {
  const own = openings.filter((opening) => room.openings.includes(opening.id));
  const told = own.filter((opening) => opening[state] === "at the opening").length;
  const edge = own.length ? `${told} of ${own.length} guarded` : "no opening outdoors";
  return state === "away" && room.motion_fraction > 0 ? `${edge} · floor ${Math.round(room.motion_fraction * 100)} %` : edge;
}

/** Motion detectors are off in stay. @param {Level} level @param {Places} places */
function offMarks(level, places) {
  return (level.devices ?? []).filter((device) => device.kind === "motion").flatMap((device) => [
    onPaper(device.at, [make("path", { class: "off-stroke", d: "M-13 13L13 -13" })]),
    ...signNear(places, device.at, "off", "off"),
  ]);
}
