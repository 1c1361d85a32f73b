/**
 * Floors of the closed rooms, and each room's name with its area.
 */

/** @import { Level, Point, Room, RoomAnswer } from "../plan/types.js" */

import { boxOf } from "../geometry/points.js";
import { areaText } from "../plan/measures.js";
import { make, onPaper, through } from "./svg.js";

const SPACED = 0.04; // of their size: the space after each letter
const [SMALLEST, FEWEST, CLEAR] = [7, 3, 2]; // px: the least size of a name; letters below which a cut name says nothing; px that it keeps off the walls

/** @param {Point[][]} faces */
export function drawFloors(faces) {
  return [make("path", { class: "floor", d: faces.map((ring) => through(ring, true)).join("") })];
}

/**
 * @param {Level} level @param {RoomAnswer[]} answers @param {"imperial" | "metric"} units @param {number} scale px a foot
 * @param {Map<string, {x: number, y: number}>} shifts px that a name is moved by, to the right and down
 * @returns {SVGElement[]}
 */
export function drawRooms(level, answers, units, scale, shifts) {
  return (level.rooms ?? []).map((room) => {
    const label = roomLabel(room, answers.find((entry) => entry.id === room.id), units, scale);
    const { x, y: shift } = shifts.get(room.id) ?? { x: 0, y: 0 };
    const turn = label.turned ? `translate(${label.size / 3 + x} ${shift}) rotate(-90)` : null;
    const across = label.turned ? 0 : x;
    const lines = label.lines.map((word, i) => make("text", { class: "room-name", "font-size": label.size, x: across, y: (label.turned ? 0 : shift) + i * (label.size + 1), transform: turn }, [word]));
    if (label.area) lines.push(make("text", { class: "room-area", "font-size": label.size - 1.5, x, y: shift + label.lines.length * (label.size + 1) }, [label.area]));
    return onPaper(room.at, [
      make("rect", { class: "reach-area", x: x - Math.max(label.width, 24) / 2, y: shift - label.size, width: Math.max(label.width, 24), height: Math.max(label.height, 24) }),
      ...(label.cut ? [make("title", {}, [room.name])] : []),
      ...lines,
    ], { class: "room", "data-id": room.id, "data-family": "rooms" });
  });
}

/**
 * A room's words as they are laid out, in pixels about its point. `up` and `down`: how far they may be moved and stay in
 * the room; `left` and `right`: the same; `lift`: how far a tall block stands above its usual place; `aside`: how far to the
 * right of it, where the room has more width; `turned`: the room is too narrow, its name reads upward; `cut`: the name does
 * not stand whole.
 * @typedef {{lines: string[], area: string, size: number, width: number, height: number, up: number, down: number, left: number, right: number, lift: number, aside: number, turned: boolean, cut: boolean}} RoomLabel
 */

/** @typedef {{wide: number, above: number, below: number, left: number, right: number}} Space pixels about a point: as wide to both sides, above, below; how far the room goes on to either side at the point's height */

/** @param {Room} room @param {RoomAnswer | undefined} answer @param {"imperial" | "metric"} units @param {number} scale px a foot @returns {RoomLabel} */
export function roomLabel(room, answer, units, scale) {
  const space = spaceAbout(room.at, answer, scale);
  const { left, right } = space;
  const area = answer ? areaText(answer.area_sqft, units) : "";
  const about = laidOut(room.name || room.id, area, scale, space);
  const broad = (about.turned || about.cut) && left + right > space.wide ? laidOut(room.name || room.id, area, scale, { ...space, wide: left + right }) : about;
  const label = broad.turned || broad.cut ? about : broad;
  const [least, most] = [label.width / 2 + CLEAR - left, right - label.width / 2 - CLEAR];
  const aside = least > most ? 0 : Math.min(Math.max(0, least), most);
  return { ...label, aside, left: Math.max(0, aside - least), right: Math.max(0, most - aside) };
}

/** @param {string} name @param {string} areaWords @param {number} scale px a foot @param {Space} space */
function laidOut(name, areaWords, scale, { wide, above, below }) {
  const high = above + below;
  const usual = wide < 90 || scale < 10 ? 9.5 : 12;
  const whole = scale > 3 && wide > 24 ? linesOf(name, wide, usual) : [];
  const long = widest(whole, usual);
  if (long > wide - 4 && whole.length === 1 && high > long) {
    const free = Math.max(0, (high - long) / 2 - 4);
    return { lines: whole, area: "", size: usual, width: usual + 2, height: long, up: free, down: free, lift: 0, turned: true, cut: false };
  }
  const size = Math.min(usual, Math.max(SMALLEST, (usual * (wide - CLEAR)) / Math.max(long, 1)));
  const lines = within(whole, wide - CLEAR, size, Math.max(1, Math.floor((high - 6) / (size + 1))));
  const area = wide > 60 && scale > 9 && high > 40 && (lines.length + 1) * (size + 1) < high ? areaWords : "";
  const width = Math.max(widest(lines, size), area.length * (size - 1.5) * 0.55);
  const height = (lines.length + (area ? 1 : 0)) * (size + 1);
  const lift = Math.max(0, height - size - below + 4);
  return { lines, area, size, width, height, up: Math.max(0, above - size - lift - 3), down: Math.max(0, below - height + size + lift - 3), lift, turned: false, cut: !lines.length || lines.join() !== whole.join() };
}

/** The room about a point. @param {Point} at @param {RoomAnswer | undefined} answer @param {number} scale @returns {Space} */
function spaceAbout(at, answer, scale) {
  const rings = answer?.outline ?? [];
  const box = rings.length ? boxOf(rings.flat()) : null;
  if (!box) return { wide: 200, above: 50, below: 50, left: 100, right: 100 };
  const wide = 2 * scale * Math.min(at[0] - box.left, box.right - at[0]);
  const [left, right] = acrossAt(at, rings) ?? [wide / scale / 2, wide / scale / 2];
  return { wide, above: (box.top - at[1]) * scale, below: (at[1] - box.bottom) * scale, left: left * scale, right: right * scale };
}

/** How far, in feet, a room goes on to both sides of a point in it. @param {Point} at @param {Point[][]} rings @returns {[number, number] | null} */
function acrossAt(at, rings) {
  let [left, right] = [Infinity, Infinity];
  for (const ring of rings) {
    for (const [i, b] of ring.entries()) {
      const a = /** @type {Point} */ (ring.at(i - 1));
      if (a[1] > at[1] === b[1] > at[1]) continue;
      const x = a[0] + ((b[0] - a[0]) * (at[1] - a[1])) / (b[1] - a[1]) - at[0];
      if (x < 0) left = Math.min(left, -x);
      else right = Math.min(right, x);
    }
  }
  return Number.isFinite(left + right) ? [left, right] : null;
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
