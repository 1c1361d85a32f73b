/**
 * Floors of the closed rooms, and each room's name with its area.
 */

/** @import { Level, Point, Room, RoomAnswer } from "../plan/types.js" */

import { boxOf } from "../geometry/points.js";
import { areaText } from "../plan/measures.js";
import { make, onPaper, through } from "./svg.js";

const LETTER = 0.69; // of a name's size: capitals, letter-spaced

/** @param {Point[][]} faces */
export function drawFloors(faces) {
  return [make("path", { class: "floor", d: faces.map((ring) => through(ring, true)).join("") })];
}

/**
 * @param {Level} level @param {RoomAnswer[]} answers @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @param {Map<string, number>} shifts px that a name is moved down by
 * @returns {SVGElement[]}
 */
export function drawRooms(level, answers, units, scale, shifts) {
  return (level.rooms ?? []).map((room) => {
    const label = roomLabel(room, answers.find((entry) => entry.id === room.id), units, scale);
    const shift = shifts.get(room.id) ?? 0;
    const turn = label.turned ? `translate(${label.size / 3} ${shift}) rotate(-90)` : null;
    const lines = label.lines.map((word, i) => make("text", { class: "room-name", "font-size": label.size, y: (label.turned ? 0 : shift) + i * (label.size + 1), transform: turn }, [word]));
    if (label.area) lines.push(make("text", { class: "room-area", "font-size": label.size - 1.5, y: shift + label.lines.length * (label.size + 1) }, [label.area]));
    return onPaper(room.at, [
      make("rect", { class: "reach-area", x: -Math.max(label.width, 24) / 2, y: shift - label.size, width: Math.max(label.width, 24), height: Math.max(label.height, 24) }),
      ...lines,
    ], { class: "room", "data-id": room.id, "data-family": "rooms" });
  });
}

/**
 * A room's words as they are laid out, in pixels; `free` is how far they may move up or down and stay in the room.
 * @param {Room} room @param {RoomAnswer | undefined} answer @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @returns {{lines: string[], area: string, size: number, width: number, height: number, free: number, turned: boolean}} `turned`: the room is too narrow, its name reads upward
 */
export function roomLabel(room, answer, units, scale) {
  const box = answer?.outline?.length ? boxOf(answer.outline.flat()) : null;
  const [wide, high] = box ? [(box.right - box.left) * scale, (box.top - box.bottom) * scale] : [200, 100];
  const size = wide < 90 || scale < 10 ? 9.5 : 12;
  const lines = scale > 3 && wide > 24 ? linesOf(room.name || room.id, wide, size) : [];
  const area = answer && wide > 60 && scale > 9 && high > 40 ? areaText(answer.area_sqft, units) : "";
  const width = Math.max(0, ...lines.map((line) => line.length * size * LETTER), area.length * (size - 1.5) * 0.55);
  const height = (lines.length + (area ? 1 : 0)) * (size + 1);
  if (width > wide - 4 && lines.length === 1 && high > width) {
    return { lines, area: "", size, width: size + 2, height: width, free: Math.max(0, (high - width) / 2 - 4), turned: true };
  }
  return { lines, area, size, width, height, free: Math.max(0, high / 2 - height - 4), turned: false };
}

/** A name broken into lines that fit. @param {string} name @param {number} wide px @param {number} size px */
function linesOf(name, wide, size) {
  /** @type {string[]} */
  const lines = [];
  for (const word of name.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && (last.length + word.length + 1) * size * LETTER < wide - 8) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
