/**
 * The drags that a press on something begins: one small object each, with what a move shows and what the end commits.
 */

/** @import { Device, Level, Opening, Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Place } from "./device_places.js" */
/** @import { Spot } from "./gesture.js" */

import { marksOf } from "../drawing/marks.js";
import { bearing, boxOf, distance, minus, along, plus } from "../geometry/points.js";
import { changeThing, moveCorners, moveThings, withLevel } from "../plan/edits.js";
import { find, kindOf, nameOf, pointsOf, tagOf, unitsOf, wallOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { keepOpenings, whyNoSeat } from "../plan/openings_keep.js";
import { make } from "../drawing/svg.js";
import { trialOf } from "../server/trial.js";
import { answerWords } from "./answer_words.js";
import { placeFor } from "./device_places.js";
import { facesOf, shiftToFaces } from "./face_snap.js";
import { gridStep, snapMarks, snapped } from "./field.js";
import { bothDistances, openSide, seatAlong } from "./place_opening.js";
import { PROVED } from "./place_device.js";

const FACE_NEAR = 8; // px from a wall's face at which an obstruction's side takes to it

/** @typedef {{move: (spot: Spot) => void, ahead?: (spot: Spot) => void, end: () => void, cancel: () => void}} Drag */

/** Commit what is sketched, or nothing. @param {Desk} desk @param {string} words */
function finish(desk, words) {
  const { draft } = desk.store;
  marksOf(desk).clear();
  if (draft) desk.store.commit(words, draft);
}

/** @param {Desk} desk */
function drop(desk) {
  marksOf(desk).clear();
  desk.store.sketch(null);
}

/** Move one device; its answer comes along. @param {Desk} desk @param {Device} device @param {Point} grabbed @returns {Drag} */
export function dragDevice(desk, device, grabbed) {
  const { store } = desk;
  const { plan } = store;
  const tag = tagOf(device, desk.tables);
  const kind = kindOf(desk.tables, device.kind);
  const offset = minus(device.at, grabbed);
  const faces = desk.proof.answer?.levels?.find((entry) => entry.id === store.levelId)?.faces ?? [];
  let held = device;
  const tell = () => {
    if (!store.draft) return;
    const { main, more } = answerWords(held, desk.proof, unitsOf(plan));
    marksOf(desk).say(held.at, main || tag, more);
  };
  /** @param {Spot} spot @returns {{moved: Device, place: Place | null}} */
  const heldAt = (spot) => {
    const wanted = plus(spot.at, offset);
    const place = spot.free ? null : placeFor(wanted, kind, store.committedLevel, faces, desk.view.scale);
    const at = place?.snapped.at ?? wanted;
    return { moved: { ...device, ...place?.keys, at: [round(at[0]), round(at[1])] }, place };
  };
  desk.proof.listeners.add(tell);
  desk.proof.focusOn(device);
  desk.autosave.now();
  return {
    ahead(spot) {
      // The answer is often here in time for the frame that shows the device at its new place.
      if (PROVED.has(device.kind) && trialOf(desk).isFree) trialOf(desk).ask(store.levelId, heldAt(spot).moved, spot.since);
    },
    move(spot) {
      const { moved, place } = heldAt(spot);
      held = moved;
      store.sketch(changeThing(plan, device.id, held));
      marksOf(desk).show(place ? snapMarks(place.snapped) : []);
      tell();
      if (PROVED.has(device.kind)) trialOf(desk).ask(store.levelId, held, spot.since);
    },
    end() {
      desk.proof.listeners.delete(tell);
      trialOf(desk).end();
      finish(desk, `Move ${tag}`);
      if (!store.done.length || store.plan === plan) desk.proof.settle();
    },
    cancel() {
      desk.proof.listeners.delete(tell);
      trialOf(desk).end();
      drop(desk);
      desk.proof.settle();
    },
  };
}

/** Turn a device that faces a way. @param {Desk} desk @param {Device} device @returns {Drag} */
export function turnDevice(desk, device) {
  const { plan } = desk.store;
  return {
    move(spot) {
      const angle = bearing(minus(spot.at, device.at));
      const facing = spot.free ? Math.round(angle * 10) / 10 : (Math.round(angle / 5) * 5) % 360;
      const held = { ...device, facing };
      desk.store.sketch(changeThing(plan, device.id, { facing }));
      marksOf(desk).say(spot.at, `faces ${facing}°`);
      if (PROVED.has(device.kind)) trialOf(desk).ask(desk.store.levelId, held, spot.since);
    },
    end() {
      trialOf(desk).end();
      finish(desk, `Turn ${tagOf(device, desk.tables)}`);
    },
    cancel() {
      trialOf(desk).end();
      drop(desk);
      desk.proof.settle();
    },
  };
}

/** Slide an opening along its wall. @param {Desk} desk @param {Opening} opening @param {Point} grabbed @returns {Drag} */
export function slideOpening(desk, opening, grabbed) {
  const { plan } = desk.store;
  const level = desk.store.committedLevel;
  const wall = wallOf(level, opening.wall);
  const units = unitsOf(plan);
  const hold = wall ? along(grabbed, wall.a, wall.b) - opening.offset : 0;
  let fault = /** @type {string | null} */ (null);
  return {
    move(spot) {
      if (!wall) return;
      const offset = seatAlong(wall, along(spot.at, wall.a, wall.b) - hold, opening.width, spot.free ? 0 : gridStep(desk));
      const moved = { ...opening, offset };
      fault = whyNoSeat(level, moved, units);
      desk.store.sketch(changeThing(plan, opening.id, { offset }));
      marksOf(desk).show(bothDistances(moved, wall, units, openSide(desk, wall, moved) * 36 / desk.view.scale));
      marksOf(desk).say(spot.at, lengthText(offset, units), fault ? `does not fit: ${fault}` : `from the end of ${wall.id}`);
    },
    end() {
      if (!fault) return finish(desk, `Slide ${opening.id}`);
      drop(desk);
      desk.say(`${opening.id} stays where it was: ${fault}`, true);
    },
    cancel: () => drop(desk),
  };
}

/** Move a corner with every wall that meets there. @param {Desk} desk @param {Point} corner @returns {Drag} */
export function dragCorner(desk, corner) {
  const { plan, levelId } = desk.store;
  const level = desk.store.committedLevel;
  const moving = new Set((level.walls ?? []).filter((wall) => distance(wall.a, corner) < 2e-3 || distance(wall.b, corner) < 2e-3).map((wall) => wall.id));
  const units = unitsOf(plan);
  /** @type {string[]} */
  let words = [];
  return {
    move(spot) {
      const one = moving.size === 1 ? wallOf(level, /** @type {string} */ ([...moving][0])) : undefined;
      const anchor = one ? (distance(one.a, corner) < 2e-3 ? one.b : one.a) : corner;
      const to = snapped(desk, spot, anchor, { without: moving });
      const kept = keepOpenings(level, moveCorners(level, [corner], minus(to.at, corner)), units);
      words = kept.words;
      if ((kept.level.walls ?? []).some((wall) => distance(wall.a, wall.b) < 0.05)) return;
      desk.store.sketch(withLevel(plan, levelId, () => kept.level));
      marksOf(desk).show(snapMarks(to));
      const lengths = [...moving].map((id) => wallOf(kept.level, id)).map((wall) => (wall ? `${wall.id} ${lengthText(distance(wall.a, wall.b), units)}` : ""));
      marksOf(desk).say(to.at, lengths.slice(0, 3).join("  "), words[0] ?? to.words);
    },
    end() {
      finish(desk, "Move a corner");
      for (const told of words) desk.say(told, true);
    },
    cancel: () => drop(desk),
  };
}

/** Move one corner of an obstruction. @param {Desk} desk @param {string} id @param {number} index @returns {Drag} */
export function dragOutlineCorner(desk, id, index) {
  const { plan } = desk.store;
  const found = find(plan, id);
  const ring = found?.family === "fixtures" ? found.thing.polygon ?? [] : [];
  return {
    move(spot) {
      const to = snapped(desk, spot, null, { without: new Set([id]) });
      desk.store.sketch(changeThing(plan, id, { polygon: ring.map((corner, i) => (i === index ? to.at : corner)) }));
      marksOf(desk).show(snapMarks(to));
    },
    end: () => finish(desk, "Reshape an obstruction"),
    cancel: () => drop(desk),
  };
}

/** Move everything selected; a grip near the pointer snaps. @param {Desk} desk @param {Set<string>} ids @param {Point} grabbed @returns {Drag} */
export function dragThings(desk, ids, grabbed) {
  const { plan, levelId } = desk.store;
  const level = desk.store.committedLevel;
  const units = unitsOf(plan);
  /** @type {string[]} */
  let words = [];
  const first = find(plan, /** @type {string} */ ([...ids][0]));
  const name = ids.size === 1 && first ? nameOf(first, desk.tables) : `${ids.size} things`;
  const outline = (ids.size === 1 && first?.family === "fixtures" && first.thing.polygon) || [];
  const faces = outline.length && first ? facesOf(level, first.thing.id) : null;
  return {
    move(spot) {
      const step = spot.free ? 1e-4 : gridStep(desk);
      const stepped = /** @type {Point} */ (minus(spot.at, grabbed).map((feet) => Math.round(feet / step) * step));
      const by = spot.free || !faces ? stepped : plus(stepped, shiftToFaces(outline.map((corner) => plus(corner, stepped)), faces, FACE_NEAR / desk.view.scale));
      const kept = keepOpenings(level, moveThings(level, ids, by), units);
      words = kept.words;
      desk.store.sketch(withLevel(plan, levelId, () => kept.level));
      marksOf(desk).say(spot.at, `${lengthText(by[0], units)}, ${lengthText(by[1], units)}`, words[0] ?? "");
    },
    end() {
      finish(desk, `Move ${name}`);
      for (const told of words) desk.say(told, true);
    },
    cancel: () => drop(desk),
  };
}

/** Draw a box and select what lies in it whole. @param {Desk} desk @param {Spot} start @returns {Drag} */
export function selectBox(desk, start) {
  /** @type {Point} */
  let end = start.at;
  return {
    move(spot) {
      end = spot.at;
      const [x, y] = [Math.min(start.at[0], end[0]), Math.max(start.at[1], end[1])];
      marksOf(desk).show([make("rect", { class: "select-box", x, y: -y, width: Math.abs(end[0] - start.at[0]), height: Math.abs(end[1] - start.at[1]) })]);
    },
    end() {
      marksOf(desk).clear();
      const box = boxOf([start.at, end]);
      if (!box) return;
      const within = thingsIn(desk.store.committedLevel, (p) => p[0] >= box.left && p[0] <= box.right && p[1] >= box.bottom && p[1] <= box.top);
      desk.selection.set(start.add ? [...desk.selection.ids, ...within] : within);
      desk.say(`${desk.selection.ids.size} selected`);
    },
    cancel: () => marksOf(desk).clear(),
  };
}

/** @param {Level} level @param {(p: Point) => boolean} holds @returns {string[]} */
function thingsIn(level, holds) {
  const only = (/** @type {Partial<Level>} */ part) => pointsOf({ id: "", name: "", ...part }).every(holds);
  const walls = new Set((level.walls ?? []).filter((wall) => only({ walls: [wall] })).map((wall) => wall.id));
  return [
    ...walls,
    ...(level.openings ?? []).filter((opening) => walls.has(opening.wall)).map((opening) => opening.id),
    ...(level.fixtures ?? []).filter((fixture) => only({ fixtures: [fixture] })).map((fixture) => fixture.id),
    ...(level.rooms ?? []).filter((room) => holds(room.at)).map((room) => room.id),
    ...(level.devices ?? []).filter((device) => holds(device.at)).map((device) => device.id),
  ];
}

/** @param {number} feet */
const round = (feet) => Math.round(feet * 1e4) / 1e4;
