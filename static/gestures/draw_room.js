/**
 * Draw a rectangle of walls in two presses; a typed length gives the width, the next one the depth.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { dimension, marksOf, sketch } from "../drawing/marks.js";
import { between, distance } from "../geometry/points.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { nextRoomName } from "../plan/room_uses.js";
import { newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { rectangleWalls } from "../plan/rectangle.js";
import { SLID, snapMarks, snapped } from "./field.js";


/** @param {Desk} desk @returns {Gesture} */
export function drawRoom(desk) {
  /** @type {Point | null} */
  let first = null;
  /** @type {number | null} */
  let width = null;
  /** @type {Point} */
  let end = [0, 0];

  /** @param {Point} corner */
  function build(corner) {
    if (!first || Math.abs(corner[0] - first[0]) < 0.5 || Math.abs(corner[1] - first[1]) < 0.5) return;
    const walls = rectangleWalls(desk.store.plan, desk.store.committedLevel.walls ?? [], first, corner, desk.tools.wall);
    const middle = between(first, corner, 0.5);
    leave();
    if (!walls.length) return desk.say("Walls stand there already");
    const { roomUse } = desk.tools;
    const built = addThings(desk.store.plan, desk.store.levelId, "walls", walls);
    const named = roomUse ? [{ id: newId(built, PREFIX.rooms), name: nextRoomName(desk.store.level, roomUse), use: roomUse, at: middle }] : [];
    desk.store.commit("Draw a room", addThings(built, desk.store.levelId, "rooms", named));
    desk.say(`${named[0]?.name ?? "Room"} of ${walls.length} new walls`);
  }

  function leave() {
    const was = first !== null;
    [first, width] = [null, null];
    marksOf(desk).clear();
    desk.pointer.tell();
    return was;
  }

  /** @param {Spot} spot */
  function show(spot) {
    const to = snapped(desk, spot, null, { corners: first ? [first] : [] });
    end = to.at;
    if (!first) {
      marksOf(desk).show(snapMarks(to));
      return marksOf(desk).say(to.at, "", to.words);
    }
    if (width !== null) end = [first[0] + width * (end[0] < first[0] ? -1 : 1), end[1]];
    const units = unitsOf(desk.store.plan);
    const [dx, dy] = [Math.abs(end[0] - first[0]), Math.abs(end[1] - first[1])];
    const aside = 18 / desk.view.scale;
    marksOf(desk).show([
      sketch([first, [end[0], first[1]], end, [first[0], end[1]]], true, "room-to-be"),
      ...(dx > 0.2 ? [dimension([Math.min(first[0], end[0]), Math.max(first[1], end[1])], [Math.max(first[0], end[0]), Math.max(first[1], end[1])], aside, lengthText(dx, units))] : []),
      ...(dy > 0.2 ? [dimension([Math.min(first[0], end[0]), Math.min(first[1], end[1])], [Math.min(first[0], end[0]), Math.max(first[1], end[1])], aside, lengthText(dy, units))] : []),
      ...snapMarks({ ...to, at: end }),
    ]);
    marksOf(desk).say(end, `${lengthText(dx, units)} × ${lengthText(dy, units)}`, to.words);
  }

  return {
    get hint() {
      return first ? "Press the opposite corner, or type the width and Enter, then the depth." : "Press one corner of the room.";
    },
    get asks() {
      if (!first) return undefined;
      return width === null ? "Width" : "Depth";
    },
    press(spot) {
      show(spot);
      if (!first) first = end;
      else if (!spot.touch) build(end); // a finger sees the size while it slides, and ends the room where it leaves
      desk.pointer.tell();
    },
    move: show,
    release(spot) {
      if (!spot.touch || !first) return;
      show(spot);
      if (distance(first, end) * desk.view.scale > SLID) build(end);
      desk.pointer.tell();
    },
    typed(feet) {
      if (!first || feet < 0.5) return;
      if (width !== null) return build([end[0], first[1] + feet * (end[1] < first[1] ? -1 : 1)]);
      width = feet;
      end = [first[0] + feet * (end[0] < first[0] ? -1 : 1), end[1]];
      desk.pointer.tell();
    },
    escape: leave,
    off: () => void leave(),
  };
}
