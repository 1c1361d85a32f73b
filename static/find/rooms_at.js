/**
 * In which room a thing is, by the outlines that the server worked out.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Found } from "../plan/lookup.js" */

import { placeOf } from "../plan/lookup.js";

/** @param {Desk} desk @returns {(found: Found) => string} the room's name, or nothing where it is in none */
export function roomsAt(desk) {
  const rooms = (desk.proof.answer?.rooms ?? []).map((room) => ({ ...room, rings: room.outline ?? [] }));
  return (found) => {
    const at = placeOf(found);
    return rooms.find((room) => room.level === found.level.id && room.rings.some((ring) => isInside(at, ring)))?.name ?? "";
  };
}

/** By the crossings of a ray to the east. @param {Point} p @param {Point[]} ring */
function isInside([x, y], ring) {
  let inside = false;
  for (let i = 0; i < ring.length; i++) {
    const [ax, ay] = /** @type {Point} */ (ring[i]);
    const [bx, by] = /** @type {Point} */ (ring[(i + 1) % ring.length]);
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}
