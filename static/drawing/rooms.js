/**
 * Floors of the closed rooms, and each room's name with its area.
 */

/** @import { Level, Point, Room, RoomAnswer } from "../plan/types.js" */

import { boxOf } from "../geometry/points.js";
import { areaText } from "../plan/measures.js";
import { make, onPaper, through } from "./svg.js";

const LETTER = 0.69; // of a name's size: capitals, letter-spaced
const [SMALLEST, FEWEST] = [7.5, 3]; // px: the least size of a name; letters below which a cut name says nothing

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
      ...(label.cut ? [make("title", {}, [room.name])] : []),
      ...lines,
    ], { class: "room", "data-id": room.id, "data-family": "rooms" });
  });
}

/**
 * A room's words as they are laid out, in pixels; `free` is how far they may move up or down and stay in the room.
 * @param {Room} room @param {RoomAnswer | undefined} answer @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @returns {{lines: string[], area: string, size: number, width: number, height: number, free: number, turned: boolean, cut: boolean}} `turned`: the room is too narrow, its name reads upward; `cut`: it does not stand whole
 */
export function roomLabel(room, answer, units, scale) {
  const box = answer?.outline?.length ? boxOf(answer.outline.flat()) : null;
  const [wide, high] = box ? [(box.right - box.left) * scale, (box.top - box.bottom) * scale] : [200, 100];
  const usual = wide < 90 || scale < 10 ? 9.5 : 12;
  const whole = scale > 3 && wide > 24 ? linesOf(room.name || room.id, wide, usual) : [];
  const long = widthOf(whole, usual);
  if (long > wide - 4 && whole.length === 1 && high > long) {
    return { lines: whole, area: "", size: usual, width: usual + 2, height: long, free: Math.max(0, (high - long) / 2 - 4), turned: true, cut: false };
  }
  const size = Math.min(usual, Math.max(SMALLEST, (usual * (wide - 4)) / Math.max(long, 1)));
  const lines = within(whole, Math.floor((wide - 4) / (size * LETTER)), Math.max(1, Math.floor((high - 4) / (size + 1))));
  const area = answer && wide > 60 && scale > 9 && high > 40 && (lines.length + 1) * (size + 1) < high ? areaText(answer.area_sqft, units) : "";
  const width = Math.max(widthOf(lines, size), area.length * (size - 1.5) * 0.55);
  const height = (lines.length + (area ? 1 : 0)) * (size + 1);
  return { lines, area, size, width, height, free: Math.max(0, high / 2 - height - 4), turned: false, cut: lines.join() !== whole.join() };
}

/** @param {string[]} lines @param {number} size px */
const widthOf = (lines, size) => Math.max(0, ...lines.map((line) => line.length * size * LETTER));

/** Lines cut where they would run out of the room, with a sign that they go on. @param {string[]} lines @param {number} letters of a line @param {number} rows */
function within(lines, letters, rows) {
  if (letters < FEWEST) return [];
  return lines.slice(0, rows).map((line, i) => {
    const goesOn = i === rows - 1 && lines.length > rows;
    return line.length > letters || goesOn ? `${line.slice(0, Math.min(letters - 1, line.length))}…` : line;
  });
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
