/**
 * Floors of the closed rooms, and each room's name with its area.
 */

/** @import { Level, Point, RoomAnswer } from "../plan/types.js" */

import { boxOf } from "../geometry/points.js";
import { areaText } from "../plan/measures.js";
import { make, onPaper, through } from "./svg.js";

/** @param {Point[][]} faces */
export function drawFloors(faces) {
  return [make("path", { class: "floor", d: faces.map((ring) => through(ring, true)).join("") })];
}

/**
 * @param {Level} level @param {RoomAnswer[]} answers @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @returns {SVGElement[]}
 */
export function drawRooms(level, answers, units, scale) {
  return (level.rooms ?? []).map((room) => {
    const answer = answers.find((entry) => entry.id === room.id);
    const box = answer?.outline?.length ? boxOf(answer.outline.flat()) : null;
    const wide = box ? (box.right - box.left) * scale : 200;
    const words = linesOf(room.name || room.id, wide);
    const size = wide < 70 ? 9.5 : 12;
    const area = answer && wide > 60 && scale > 5 ? areaText(answer.area_sqft, units) : "";
    const lines = words.map((word, i) => make("text", { class: "room-name", "font-size": size, y: i * (size + 1) }, [word]));
    if (area) lines.push(make("text", { class: "room-area", "font-size": 10.5, y: words.length * (size + 1) }, [area]));
    return onPaper(room.at, [
      make("rect", { class: "reach-area", x: -Math.min(wide / 2, 45), y: -14, width: Math.min(wide, 90), height: 28 + 10 * words.length }),
      ...(scale > 2.5 ? lines : []),
    ], { class: "room", "data-id": room.id, "data-family": "rooms" });
  });
}

/** A name broken into lines that fit. @param {string} name @param {number} wide px */
function linesOf(name, wide) {
  if (name.length * 6.6 < wide - 8) return [name];
  /** @type {string[]} */
  const lines = [];
  for (const word of name.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && (last.length + word.length + 1) * 6.6 < wide - 8) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
