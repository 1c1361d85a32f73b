/**
 * The handles and dimension strings of the one thing selected.
 */

/** @import { Desk } from "../desk.js" */

import { roomStrings, wallStrings } from "../drawing/dimension_strings.js";
import { handle } from "../drawing/marks.js";
import { distance, plus, times, unit } from "../geometry/points.js";
import { find, kindOf, unitsOf, wallOf } from "../plan/lookup.js";

/** @param {Desk} desk */
const facesHere = (desk) => desk.proof.answer?.levels?.find((entry) => entry.id === desk.store.levelId)?.faces ?? [];

/** What is drawn while nothing is under way. @param {Desk} desk @returns {SVGElement[]} */
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
