/**
 * Draw walls corner to corner: each press ends a wall and begins the next, until Esc, a closing press, or an end
 * on a wall that stood before: a partition is done where it meets one. Every wall is one undo step; an undone wall takes the run back to its beginning.
 */

/** @import { Point, Wall } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { marksOf, sketch, wallToBe } from "../drawing/marks.js";
import { direction, distance, nearestOn, plus, times } from "../geometry/points.js";
import { PREFIX, addThings, changeThing } from "../plan/edits.js";
import { find, newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { SLID, snapMarks, snapped } from "./field.js";
import { angleWords } from "./snapping.js";

const SHORTEST = 0.05; // ft

/** @param {Desk} desk @returns {Gesture} */
export function drawWall(desk) {
  /** @type {{at: Point, wall: string | null}[]} corners of the run, each with the wall that ended there */
  let run = [];
  /** @type {Point} where the pointer is, snapped */
  let end = [0, 0];
  let begins = false; // a finger is down that set the first corner
  let byFinger = false;
  let down = false; // and it is down
  let held = false; // the key that suspends snapping also lets a run go on past a wall

  const last = () => run.at(-1)?.at ?? null;
  const forgetUndone = () => {
    while (run.length > 1 && !find(desk.store.plan, run.at(-1)?.wall ?? "")) run.pop();
    const corner = run.at(-1);
    const wall = find(desk.store.plan, corner?.wall ?? "");
    if (corner && wall?.family === "walls") corner.at = wall.thing.b;
  };
  desk.store.listen((topic) => topic === "plan" && run.length > 1 && forgetUndone());

  /** @param {Point} to */
  function add(to) {
    const from = last();
    if (!from) {
      run = [{ at: to, wall: null }];
      return;
    }
    if (distance(from, to) < SHORTEST) return leave();
    const { thickness, height } = desk.tools.wall;
    /** @type {Wall} */
    const wall = { id: newId(desk.store.plan, PREFIX.walls), a: from, b: to, thickness, ...(height === null ? {} : { height }) };
    desk.store.commit("Draw a wall", addThings(desk.store.plan, desk.store.levelId, "walls", [wall]));
    desk.say(`Wall ${wall.id}, ${lengthText(distance(from, to), unitsOf(desk.store.plan))}`);
    const first = run[0];
    run.push({ at: to, wall: wall.id });
    if (first && (distance(first.at, to) < 1e-3 || (!held && standsAt(to)))) leave();
  }

  /** Whether a wall that is no part of the run stands at a place. @param {Point} at */
  function standsAt(at) {
    const own = new Set(run.map((corner) => corner.wall));
    return (desk.store.committedLevel.walls ?? []).some((wall) => !own.has(wall.id) && distance(nearestOn(at, wall.a, wall.b), at) < 1e-3);
  }

  /** A finger aims by drawing: the length that is typed is that of the wall it drew last. @param {number} feet */
  function giveLength(feet) {
    const [from, to] = run.slice(-2);
    if (!from || !to?.wall) return;
    const b = plus(from.at, times(direction(from.at, to.at), feet));
    desk.store.commit("Give a wall its length", changeThing(desk.store.plan, to.wall, { b }));
  }

  function leave() {
    const was = run.length > 0;
    run = [];
    marksOf(desk).clear();
    desk.pointer.tell();
    return was;
  }

  /** @param {Spot} spot */
  function show(spot) {
    const from = last();
    const to = snapped(desk, spot, from, { corners: run.map((corner) => corner.at) });
    end = to.at;
    held = spot.free;
    const units = unitsOf(desk.store.plan);
    marksOf(desk).show([...(from ? [wallToBe(from, to.at, desk.tools.wall.thickness), sketch([from, to.at], false, "centreline")] : []), ...snapMarks(to)]);
    if (from) marksOf(desk).say(to.at, `${lengthText(distance(from, to.at), units)}  ${angleWords(direction(from, to.at))}`, to.words);
    else marksOf(desk).say(to.at, "", to.words);
  }

  return {
    get hint() {
      if (run.length && byFinger) return "Slide to where the wall ends and lift, then give it its length.";
      return run.length ? "Press where the wall ends, or type its length and Enter. Esc, or a wall that it meets, ends the run." : "Press where a wall begins.";
    },
    get asks() {
      return run.length > (byFinger ? 1 : 0) ? "Length" : undefined;
    },
    press(spot) {
      show(spot);
      begins = !run.length;
      byFinger = down = spot.touch;
      if (spot.touch && !begins) return; // a finger sees the length while it slides, and ends the wall where it leaves
      add(end);
      show(spot);
      desk.pointer.tell();
    },
    move(spot) {
      if (down || !spot.touch) show(spot);
    },
    release(spot) {
      const from = last();
      down = false;
      if (!spot.touch || !from) return;
      show(spot);
      if (begins && distance(from, end) * desk.view.scale < SLID) return;
      add(end);
      marksOf(desk).clear();
      desk.pointer.tell();
    },
    typed(feet) {
      const from = last();
      if (!from || feet < SHORTEST) return;
      if (byFinger) giveLength(feet);
      else add(plus(from, times(direction(from, end), feet)));
      desk.pointer.tell();
    },
    enter: () => void leave(),
    escape: leave,
    off: () => void leave(),
  };
}
