/**
 * Place a window, door or cased opening: it rides on the wall under the pointer and shows the distance to both
 * corners; a typed length is the distance to the nearer one.
 */

/** @import { Level, Opening, Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { dimension } from "../drawing/marks.js";
import { drawOpening } from "../drawing/openings.js";
import { along, between, direction, distance, inside, leftOf, plus, times } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { OPENING_WORDS, newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { whyNoSeat } from "../plan/openings_keep.js";
import { gridStep } from "./field.js";
import { nearestWall } from "./snapping.js";

const REACH = 36; // px from a wall at which an opening takes to it

/** @param {Desk} desk @param {Opening["kind"]} kind @returns {Gesture} */
export function placeOpening(desk, kind) {
  /** @type {{opening: Opening, wall: Wall} | null} */
  let held = null;

  /** @param {Spot} spot */
  function show(spot) {
    const level = desk.store.committedLevel;
    const hit = nearestWall(spot.at, level.walls ?? [], REACH / desk.view.scale);
    held = null;
    if (!hit) {
      desk.marks.show([]);
      return desk.marks.say(spot.at, "", `point at a wall to place the ${OPENING_WORDS[kind].toLowerCase()}`);
    }
    const shape = desk.tools.openings[kind];
    const offset = seatAlong(hit.wall, along(spot.at, hit.wall.a, hit.wall.b) - shape.width / 2, shape.width, spot.free ? 0 : gridStep(desk));
    held = { wall: hit.wall, opening: { ...shape, kind, id: newId(desk.store.plan, PREFIX.openings), wall: hit.wall.id, offset } };
    draw(level);
  }

  /** @param {Level} level */
  function draw(level) {
    if (!held) return;
    const units = unitsOf(desk.store.plan);
    const fault = whyNoSeat(level, held.opening, units);
    const ghost = drawOpening(held.opening, held.wall, 1);
    ghost.classList.add("ghost-opening", ...(fault ? ["refused"] : []));
    desk.marks.show([ghost, ...bothDistances(held.opening, held.wall, units, openSide(desk, held.wall, held.opening) * 36 / desk.view.scale)]);
    desk.marks.say(between(held.wall.a, held.wall.b, (held.opening.offset + held.opening.width) / distance(held.wall.a, held.wall.b)), lengthText(held.opening.width, units), fault ? `does not fit: ${fault}` : "");
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
    held = null;
    desk.marks.clear();
  }

  return {
    hint: "Point at a wall and press. Type the distance to the nearer corner to set it.",
    asks: "Distance to the nearer corner",
    press(spot) {
      show(spot);
      place();
    },
    move: show,
    typed(feet) {
      if (!held) return;
      const length = distance(held.wall.a, held.wall.b);
      const nearA = held.opening.offset + held.opening.width / 2 <= length / 2;
      held.opening = { ...held.opening, offset: nearA ? feet : length - feet - held.opening.width };
      place();
    },
    off: () => desk.marks.clear(),
  };
}

/** @param {Wall} wall @param {number} offset @param {number} width @param {number} step 0: no steps */
export function seatAlong(wall, offset, width, step) {
  const length = distance(wall.a, wall.b);
  const middle = (length - width) / 2;
  const stepped = step ? (Math.abs(offset - middle) < step * 0.75 ? middle : Math.round(offset / step) * step) : offset;
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
