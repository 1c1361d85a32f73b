/**
 * Place a window, door or cased opening: it rides on the wall under the pointer and shows the distance to both
 * corners. A typed length is the distance to the nearer one, a typed size is that of the next ones, "3 @ 4'" repeats the last.
 */

/** @import { Level, Opening, Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Worded } from "../panels/length_box.js" */
/** @import { Spot } from "./gesture.js" */

import { dimension, marksOf } from "../drawing/marks.js";
import { drawOpening } from "../drawing/openings.js";
import { along, between, direction, distance, inside, leftOf, plus, times } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { OPENING_WORDS, newId, unitsOf } from "../plan/lookup.js";
import { lengthText, parseLength } from "../plan/measures.js";
import { whyNoSeat } from "../plan/openings_keep.js";
import { repeated } from "../plan/repeats.js";
import { stretchAt } from "../plan/stretches.js";
import { openingWords, readOpening } from "../plan/typed_sizes.js";
import { gridStep } from "./field.js";
import { nearestWall } from "./snapping.js";

const REACH = 36; // px from a wall at which an opening takes to it

/** @param {Desk} desk @param {Opening["kind"]} kind @returns {Worded} */
export function placeOpening(desk, kind) {
  /** @type {{opening: Opening, wall: Wall} | null} */
  let held = null;
  let nearA = true; // whether the pointer is nearer to its wall's a than to its b
  /** @type {Spot | null} */
  let lastSpot = null;
  let placed = ""; // the one placed last, which may be repeated

  /** @param {Spot} spot */
  function show(spot) {
    lastSpot = spot;
    const level = desk.store.committedLevel;
    const hit = nearestWall(spot.at, level.walls ?? [], REACH / desk.view.scale);
    held = null;
    if (!hit) {
      marksOf(desk).show([]);
      return marksOf(desk).say(spot.at, "", `point at a wall to place the ${OPENING_WORDS[kind].toLowerCase()}`);
    }
    const shape = desk.tools.openings[kind];
    const wanted = along(spot.at, hit.wall.a, hit.wall.b);
    nearA = wanted <= distance(hit.wall.a, hit.wall.b) / 2;
    const stretch = stretchAt(hit.wall, level.walls ?? [], wanted);
    const offset = seatAlong(hit.wall, wanted - shape.width / 2, shape.width, spot.free ? 0 : gridStep(desk), (stretch.from + stretch.to) / 2);
    held = { wall: hit.wall, opening: { ...shape, ...hinged(shape, offset, stretch), kind, id: newId(desk.store.plan, PREFIX.openings), wall: hit.wall.id, offset } };
    draw(level);
  }

  /** @param {Level} level */
  function draw(level) {
    if (!held) return;
    const units = unitsOf(desk.store.plan);
    const fault = whyNoSeat(level, held.opening, units);
    const ghost = drawOpening(held.opening, held.wall, 1);
    ghost.classList.add("ghost-opening", ...(fault ? ["refused"] : []));
    marksOf(desk).show([ghost, ...bothDistances(held.opening, held.wall, units, openSide(desk, held.wall, held.opening) * 36 / desk.view.scale)]);
    marksOf(desk).say(between(held.wall.a, held.wall.b, (held.opening.offset + held.opening.width) / distance(held.wall.a, held.wall.b)), lengthText(held.opening.width, units), fault ? `does not fit: ${fault}` : "");
  }

  function place() {
    if (!held) return;
    const units = unitsOf(desk.store.plan);
    const fault = whyNoSeat(desk.store.committedLevel, held.opening, units);
    if (fault) return desk.say(`The ${OPENING_WORDS[kind].toLowerCase()} does not fit: ${fault}`, true);
    const { opening } = held;
    desk.store.commit(`Place a ${OPENING_WORDS[kind].toLowerCase()}`, addThings(desk.store.plan, desk.store.levelId, "openings", [opening]));
    desk.selection.set([opening.id]);
    desk.say(`${OPENING_WORDS[kind]} ${opening.id} on wall ${opening.wall}`);
    placed = opening.id;
    held = null;
    marksOf(desk).clear();
  }

  /** Place it at a distance to the nearer corner. @param {number} feet */
  function seat(feet) {
    if (!held) return;
    held.opening = { ...held.opening, offset: nearA ? feet : distance(held.wall.a, held.wall.b) - feet - held.opening.width };
    place();
  }

  /** @param {string} text */
  function words(text) {
    const units = unitsOf(desk.store.plan);
    const again = /^\s*(\d{1,2})\s*@\s*(.+)$/.exec(text);
    if (again) return repeat(Number(again[1]), parseLength(again[2] ?? "", units));
    const [size = "", place] = text.split(/\s+at\s+/i);
    const feet = place === undefined ? null : parseLength(place, units);
    const read = readOpening(size, kind, desk.tools.openings[kind], units);
    if (place !== undefined && (feet === null || !read)) return "after the size: at 3'6, the distance to the nearer corner";
    if (!read || "fault" in read) return read && read.fault;
    desk.tools.openings[kind] = read.shape;
    desk.tools.reshaped();
    if (feet !== null && lastSpot) {
      show(lastSpot);
      seat(feet);
    } else desk.say(`Next: ${openingWords(read.shape, kind, units)}`);
    return "";
  }

  /** As many more of the last one, their middles a distance apart. @param {number} count @param {number | null} pitch ft */
  function repeat(count, pitch) {
    if (!pitch) return "3 @ 4' places three more, 4' from middle to middle";
    const found = (desk.store.committedLevel.openings ?? []).find((opening) => opening.id === placed);
    if (!found) return "place the first one, then repeat it";
    const row = repeated(desk.store.plan, desk.store.committedLevel, found, count, pitch);
    if ("fault" in row) return row.fault;
    desk.store.commit(`Repeat ${found.id}`, row.plan);
    desk.selection.set(row.ids);
    desk.say(`${row.ids.length} more, ${lengthText(pitch, unitsOf(desk.store.plan))} apart`);
    placed = row.ids.at(-1) ?? placed;
    return "";
  }

  return {
    hint: "Point at a wall and press. Type the distance to the nearer corner to set it, a size (3'0 x 5'0) or both (3'0 x 5'0 at 2'6); 2 @ 6' repeats the last.",
    asks: "Distance to the nearer corner, or size",
    words,
    enter: () => desk.askLength(),
    press(spot) {
      show(spot);
      place();
    },
    move: show,
    typed: seat,
    off: () => marksOf(desk).clear(),
  };
}

/** A swinging door hangs at the corner that it stands nearer to. @param {Pick<Opening, "leaf" | "hinge" | "width">} shape @param {number} offset @param {{from: number, to: number}} stretch @returns {{hinge?: "a" | "b"}} */
function hinged(shape, offset, stretch) {
  if (shape.leaf !== "swing") return {};
  return { hinge: offset - stretch.from <= stretch.to - offset - shape.width + 1e-6 ? "a" : "b" };
}

/** @param {Wall} wall @param {number} offset @param {number} width @param {number} step 0: no steps @param {number} [centre] of the room's stretch of the wall, ft from its a */
export function seatAlong(wall, offset, width, step, centre) {
  const length = distance(wall.a, wall.b);
  const middles = [length / 2, ...(centre === undefined ? [] : [centre])].map((middle) => middle - width / 2);
  const near = middles.sort((one, two) => Math.abs(one - offset) - Math.abs(two - offset))[0] ?? offset;
  const stepped = step ? (Math.abs(offset - near) < step * 0.75 ? near : Math.round(offset / step) * step) : offset;
  return Math.max(0, Math.min(stepped, length - width));
}

/**
 * The side of a wall on which dimensions lie over no room: 1 to its left, -1 to its right.
 * @param {Desk} desk @param {Wall} wall @param {Pick<Opening, "offset" | "width">} opening
 */
export function openSide(desk, wall, opening) {
  const faces = desk.proof.answer?.levels?.find((entry) => entry.id === desk.store.levelId)?.faces ?? [];
  const middle = between(wall.a, wall.b, (opening.offset + opening.width / 2) / distance(wall.a, wall.b));
  const step = times(leftOf(direction(wall.a, wall.b)), (wall.thickness ?? 0.375) / 2 + 0.3);
  const isRoom = (/** @type {1 | -1} */ side) => faces.some((ring) => inside(plus(middle, times(step, side)), ring));
  return isRoom(1) && !isRoom(-1) ? -1 : 1;
}

/**
 * Dimensions from an opening to both ends of its wall.
 * @param {Opening} opening @param {Wall} wall @param {"imperial" | "metric"} units @param {number} aside ft
 */
export function bothDistances(opening, wall, units, aside) {
  const length = distance(wall.a, wall.b);
  const at = (/** @type {number} */ u) => between(wall.a, wall.b, u / length);
  const end = opening.offset + opening.width;
  return [
    ...(opening.offset > 0.02 ? [dimension(wall.a, at(opening.offset), aside, lengthText(opening.offset, units))] : []),
    dimension(at(opening.offset), at(end), aside, lengthText(opening.width, units)),
    ...(length - end > 0.02 ? [dimension(at(end), wall.b, aside, lengthText(length - end, units))] : []),
  ];
}
