/**
 * Floors of the closed rooms, and each room's name with its area.
 */

/** @import { Level, Point, Room, RoomAnswer } from "../plan/types.js" */

import { boxOf } from "../geometry/points.js";
import { areaText } from "../plan/measures.js";
import { make, onPaper, through } from "./svg.js";

const SPACED = 0.04; // of their size: the space after each letter
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
 * A room's words as they are laid out, in pixels about its point. `up` and `down`: how far they may be moved and stay in
 * the room; `lift`: how far a tall block stands above its usual place; `turned`: the room is too narrow, its name reads
 * upward; `cut`: the name does not stand whole.
 * @typedef {{lines: string[], area: string, size: number, width: number, height: number, up: number, down: number, lift: number, turned: boolean, cut: boolean}} RoomLabel
 */

/** @param {Room} room @param {RoomAnswer | undefined} answer @param {"imperial" | "metric"} units @param {number} scale px a foot @returns {RoomLabel} */
export function roomLabel(room, answer, units, scale) {
  const { wide, above, below } = spaceAbout(room.at, answer, scale);
  const high = above + below;
  const usual = wide < 90 || scale < 10 ? 9.5 : 12;
  const whole = scale > 3 && wide > 24 ? linesOf(room.name || room.id, wide, usual) : [];
  const long = widest(whole, usual);
  if (long > wide - 4 && whole.length === 1 && high > long) {
    const free = Math.max(0, (high - long) / 2 - 4);
    return { lines: whole, area: "", size: usual, width: usual + 2, height: long, up: free, down: free, lift: 0, turned: true, cut: false };
  }
  const size = Math.min(usual, Math.max(SMALLEST, (usual * (wide - 4)) / Math.max(long, 1)));
  const lines = within(whole, wide - 4, size, Math.max(1, Math.floor((high - 6) / (size + 1))));
  const area = answer && wide > 60 && scale > 9 && high > 40 && (lines.length + 1) * (size + 1) < high ? areaText(answer.area_sqft, units) : "";
  const width = Math.max(widest(lines, size), area.length * (size - 1.5) * 0.55);
  const height = (lines.length + (area ? 1 : 0)) * (size + 1);
  const lift = Math.max(0, height - size - below + 4);
  return { lines, area, size, width, height, up: Math.max(0, above - size - lift - 3), down: Math.max(0, below - height + size + lift - 3), lift, turned: false, cut: lines.join() !== whole.join() };
}

/** Pixels about a point that lie in the box of its room: as wide to both sides, above and below. @param {Point} at @param {RoomAnswer | undefined} answer @param {number} scale */
function spaceAbout(at, answer, scale) {
  const box = answer?.outline?.length ? boxOf(answer.outline.flat()) : null;
  if (!box) return { wide: 200, above: 50, below: 50 };
  return { wide: 2 * scale * Math.min(at[0] - box.left, box.right - at[0]), above: (box.top - at[1]) * scale, below: (at[1] - box.bottom) * scale };
}

/** @type {CanvasRenderingContext2D | null} */
let pen = null;
/** @type {Map<string, number>} widths of lines already measured, as a share of the size of their letters */
const measured = new Map();

/** Width of a line as a name is lettered: bold spaced capitals in the typeface of the page. @param {string} line @param {number} size px */
function widthOf(line, size) {
  let share = measured.get(line);
  if (share === undefined) {
    pen ??= document.createElement("canvas").getContext("2d");
    if (!pen) return line.length * size;
    pen.font = `600 100px ${getComputedStyle(document.body).fontFamily}`;
    share = pen.measureText(line.toUpperCase()).width / 100 + line.length * SPACED;
    measured.set(line, share);
  }
  return share * size;
}

/** @param {string[]} lines @param {number} size px */
const widest = (lines, size) => Math.max(0, ...lines.map((line) => widthOf(line, size)));

/** Lines cut where they would run out of the room, with a sign that they go on. @param {string[]} lines @param {number} wide px @param {number} size px @param {number} rows */
function within(lines, wide, size, rows) {
  return lines.slice(0, rows).flatMap((line, i) => {
    const goesOn = i === rows - 1 && lines.length > rows;
    if (!goesOn && widthOf(line, size) <= wide) return [line];
    let letters = line.length;
    while (letters > 0 && widthOf(`${line.slice(0, letters)}…`, size) > wide) letters--;
    return letters < FEWEST ? [] : [`${line.slice(0, letters)}…`];
  });
}

/** A name broken into lines that fit. @param {string} name @param {number} wide px @param {number} size px */
function linesOf(name, wide, size) {
  /** @type {string[]} */
  const lines = [];
  for (const word of name.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(`${last} ${word}`, size) < wide - 8) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
