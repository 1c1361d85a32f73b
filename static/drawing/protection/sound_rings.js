/**
 * Sound on the drawing: rings of equal level about each sounder, cut to the house, and the level at each bed and room;
 * rooms where it is less than wakes are dotted, the denser the fainter.
 */

/** @import { Band, LevelHeard, Sound } from "../../plan/protection_types.js" */
/** @import { CheckAnswer, Level, Point } from "../../plan/types.js" */
/** @import { View } from "../view.js" */

import { inside, plus, unit } from "../../geometry/points.js";
import { make, onPaper, through, xy } from "../svg.js";
import { hatches } from "./hatches.js";
import { Places, about, sign, widthOf } from "./labels.js";

/** @type {Partial<Record<Band, string>>} */
const FLOORS = { "heard awake": "sound-awake", faint: "sound-faint", silent: "sound-faint" };

/** What tells the bands apart besides colour: "wakes" is the usual one and bears none. @type {Record<Band, string>} */
export const SIGNS = { wakes: "", "heard awake": "△", faint: "✕", silent: "✕" };

/** Dotted floors, under the walls. @param {Sound} sound @param {CheckAnswer | null} check @param {Level} level */
export function drawSoundFloors(sound, check, level) {
  return [hatches(), ...sound.rooms.filter((room) => room.level === level.id && FLOORS[room.band]).flatMap((room) => {
    const outline = check?.rooms.find((entry) => entry.id === room.thing)?.outline ?? [];
    return outline.length ? [make("path", { fill: `url(#${FLOORS[room.band]})`, d: outline.map((ring) => through(ring, true)).join("") })] : [];
  })];
}

/** Rings and levels, over the walls. @param {Sound} sound @param {CheckAnswer | null} check @param {Level} level @param {View} view @param {string | null} chosen a bed or room */
export function drawSound(sound, check, level, view, chosen) {
  const faces = check?.levels?.find((entry) => entry.id === level.id)?.faces ?? [];
  const sounders = sound.rings.filter((entry) => entry.level === level.id);
  const places = new Places(view);
  const heard = [...sound.beds, ...sound.rooms].filter((entry) => entry.level === level.id);
  const levels = heard.flatMap((entry) => levelSign(entry, check, places, entry.thing === chosen));
  const clip = make("clipPath", { id: "sound-inside" }, [make("path", { d: faces.map((ring) => through(ring, true)).join("") })]);
  return [
    make("defs", {}, [clip]),
    make("g", { "clip-path": "url(#sound-inside)" }, sounders.flatMap((entry) => entry.rings.map((ring) => make("circle", { class: `sound-ring${ring.dba % 10 ? "" : " ten"}`, cx: entry.at[0], cy: -entry.at[1], r: ring.radius_ft })))),
    ...sounders.flatMap((entry) => entry.rings.flatMap((ring) => ringSign(entry.at, ring, faces, places))),
    ...heard.filter((entry) => entry.thing === chosen).flatMap((entry) => sourceLines(entry, level)),
    ...levels,
  ];
}

/** @param {Point} at @param {{dba: number, radius_ft: number}} ring @param {Point[][]} faces @param {Places} places */
function ringSign(at, ring, faces, places) {
  const words = `${ring.dba} dBA`;
  for (const turn of [90, 270, 0, 180, 45, 225, 135, 315, 20, 200, 70, 250, 110, 290, 160, 340]) {
    const spot = plus(at, /** @type {Point} */ ([unit(turn)[0] * ring.radius_ft, unit(turn)[1] * ring.radius_ft]));
    if (!faces.some((face) => inside(spot, face))) continue;
    if (places.forWords(words, [{ at: spot, by: [0, 0] }])) return [sign(spot, words, "ring")];
  }
  return [];
}

/** The level at a bed or room: inside the room where it fits, else beside it with a line. @param {LevelHeard} heard @param {CheckAnswer | null} check @param {Places} places @param {boolean} chosen */
function levelSign(heard, check, places, chosen) {
  const words = heard.dba === null ? "✕ not heard" : `${SIGNS[heard.band]} ${Math.floor(heard.dba)} dBA`.trim();
  const rings = check?.rooms.find((entry) => entry.id === heard.thing)?.outline ?? [];
  const spots = [/** @type {Point} */ ([0, 0]), ...about(widthOf(words))].map((by) => ({ at: heard.at, by }));
  const own = spots.filter(({ by }) => rings.some((ring) => inside(places.onPlan({ at: heard.at, by }), ring)));
  const spot = places.forWords(words, own) ?? (rings.length && heard.band === "wakes" && !chosen ? null : places.forWords(words, spots));
  if (!spot) return [];
  const far = Math.hypot(...spot.by) > 30;
  return [
    ...(far ? [onPaper(heard.at, [make("path", { class: "told-line", d: `M0 0L${spot.by[0]} ${spot.by[1]}` }), make("circle", { class: "ear", r: 2.5 })])] : []),
    sign(heard.at, words, `heard-${heard.band.replace(" ", "-")}${chosen ? " chosen-sign" : ""}`, spot.by),
  ];
}

/** From the loudest sources to the ear. @param {LevelHeard} heard @param {Level} level */
function sourceLines(heard, level) {
  return heard.from.flatMap((source) => {
    const at = level.devices?.find((device) => device.id === source.device)?.at;
    return at ? [make("path", { class: "guard-line chosen-line", d: `M${xy(at)}L${xy(heard.at)}` })] : [];
  });
}
