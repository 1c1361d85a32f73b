/**
 * Select and move: a press selects, with Shift it adds; a drag moves what was pressed, on empty ground it draws a box.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Drag } from "./drags.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { handle } from "../drawing/marks.js";
import { distance, plus, times, unit } from "../geometry/points.js";
import { find, kindOf, unitsOf, wallOf } from "../plan/lookup.js";
import { roomStrings, wallStrings } from "../drawing/dimension_strings.js";
import { isMet } from "../plan/wall_shift.js";
import { dragRiser, dragWaypoint } from "./cable_drags.js";
import { dragWall } from "./drag_wall.js";
import { dragCorner, dragDevice, dragOutlineCorner, dragThings, selectBox, slideOpening, turnDevice } from "./drags.js";

const [STARTS, STARTS_TOUCH] = [4, 9]; // px

/** @param {Desk} desk @returns {Gesture} */
export function select(desk) {
  /** @type {Spot | null} */
  let pressed = null;
  /** @type {Drag | null} */
  let drag = null;

  function done() {
    [drag, pressed] = [null, null];
    delete desk.drawing.svg.dataset.drag;
  }

  /** What dragging from a spot means. @param {Spot} spot @returns {Drag} */
  function dragFrom(spot) {
    if (spot.id && spot.handle === "riser") return dragRiser(desk, spot.id);
    const found = spot.id ? find(desk.store.plan, spot.id) : undefined;
    if (!found) return selectBox(desk, spot);
    if (spot.handle) return pull(spot.handle, spot);
    if (desk.selection.ids.size > 1 && desk.selection.ids.has(found.thing.id)) return dragThings(desk, desk.selection.ids, spot.at);
    desk.selection.set([found.thing.id], desk.selection.pane);
    if (found.family === "devices") return dragDevice(desk, found.thing, spot.at);
    if (found.family === "openings") return slideOpening(desk, found.thing, spot.at);
    if (found.family === "walls" && isMet(desk.store.committedLevel, found.thing)) return dragWall(desk, found.thing, spot.at);
    return dragThings(desk, new Set([found.thing.id]), spot.at);
  }

  /** @param {string} what @param {Spot} spot @returns {Drag} */
  function pull(what, spot) {
    const found = spot.id ? find(desk.store.plan, spot.id) : undefined;
    if (found?.family === "walls") return dragCorner(desk, what === "a" ? found.thing.a : found.thing.b);
    if (found && what.startsWith("via")) return dragWaypoint(desk, found.thing.id, what);
    if (found?.family === "devices") return turnDevice(desk, found.thing);
    return dragOutlineCorner(desk, spot.id ?? "", Number(what));
  }

  return {
    hint: "Press a thing to select it; drag to move it. Drag empty ground to select by a box.",
    press(spot) {
      pressed = spot;
    },
    move(spot) {
      if (!pressed) return;
      if (!drag && Math.hypot(spot.x - pressed.x, spot.y - pressed.y) > (spot.touch ? STARTS_TOUCH : STARTS)) {
        drag = dragFrom(pressed);
        desk.drawing.svg.dataset.drag = pressed.family ?? "box";
      }
      drag?.move(spot);
    },
    release() {
      if (drag) drag.end();
      else if (pressed) choose(desk, pressed);
      done();
    },
    twice(spot) {
      if (spot.id) desk.tools.askFor("");
    },
    escape() {
      const was = drag !== null || desk.selection.ids.size > 0;
      if (drag) drag.cancel();
      else desk.selection.set([]);
      done();
      return was;
    },
    off() {
      drag?.cancel();
      done();
    },
  };
}

/** @param {Desk} desk @param {Spot} spot */
function choose(desk, spot) {
  const { id } = spot;
  if (!id) return spot.add ? undefined : desk.selection.set([]);
  if (spot.add) desk.selection.toggle(id);
  else desk.selection.set([id], spot.pane ?? desk.proof.panes.find((pane) => pane.opening === id)?.id ?? null);
}

/** @param {Desk} desk */
const facesHere = (desk) => desk.proof.answer?.levels?.find((entry) => entry.id === desk.store.levelId)?.faces ?? [];

/** The handles and dimension strings of the one thing selected, drawn while nothing is under way. @param {Desk} desk @returns {SVGElement[]} */
export function handlesOf(desk) {
  const id = desk.selection.only;
  const found = id ? find(desk.store.shown, id) : undefined;
  if (!found || found.level.id !== desk.store.levelId) return [];
  const units = unitsOf(desk.store.shown);
  const wall = found.family === "walls" ? found.thing : found.family === "openings" ? wallOf(found.level, found.thing.wall) : undefined;
  const strings = wall ? wallStrings(wall, found.level, facesHere(desk), desk.view.scale, units) : [];
  if (found.family === "openings") return desk.tools.current === "select" && !desk.store.draft ? strings : []; // a slide shows its own
  if (found.family === "walls") {
    if (distance(found.thing.a, found.thing.b) * desk.view.scale < 24) return strings;
    return [...strings, handle(found.thing.a, "a", found.thing.id), handle(found.thing.b, "b", found.thing.id)];
  }
  if (found.family === "rooms") return roomStrings(found.thing, desk.proof.answer?.rooms.find((room) => room.id === found.thing.id), desk.view.scale, units);
  if (found.family === "fixtures") return (found.thing.polygon ?? []).map((corner, i) => handle(corner, String(i), found.thing.id));
  if (found.family === "devices" && kindOf(desk.tables, found.thing.kind).faces && found.thing.facing != null) {
    return [handle(plus(found.thing.at, times(unit(found.thing.facing), 36 / desk.view.scale)), "facing", found.thing.id)];
  }
  return [];
}
