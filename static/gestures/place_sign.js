/**
 * Put down what stands at one point: a room's name, a light switch, the chime, a register, a bed, an outlet.
 */

/** @import { FixtureKind } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { sketch } from "../drawing/marks.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { FIXTURE_WORDS, newId } from "../plan/lookup.js";
import { nextRoomName } from "../plan/room_uses.js";
import { snapMarks, snapped } from "./field.js";
import { inside } from "../geometry/points.js";

/** @type {Partial<Record<FixtureKind, number>>} usual heights above the floor, ft */
const HEIGHTS = { light_switch: 4, chime: 7, supply_register: 8.5, bed: 2, outlet: 1 };

/** @param {Desk} desk @returns {Gesture} */
export function nameRoom(desk) {
  return {
    hint: "Press inside a room to name it; with a use chosen, room after room.",
    move(spot) {
      const faces = desk.proof.answer?.levels?.find((entry) => entry.id === desk.store.levelId)?.faces ?? [];
      const face = faces.find((ring) => inside(spot.at, ring));
      const { roomUse } = desk.tools;
      desk.marks.show(face ? [sketch(face, true)] : []);
      desk.marks.say(spot.at, roomUse ? nextRoomName(desk.store.level, roomUse) : "", face ? (roomUse ? "" : "name this room") : "no walls close a room here");
    },
    press(spot) {
      const answer = (desk.proof.answer?.rooms ?? []).find((room) => room.level === desk.store.levelId && room.outline?.some((ring) => inside(spot.at, ring)));
      const there = answer && desk.store.level.rooms?.find((room) => room.id === answer.id);
      const { roomUse } = desk.tools;
      if (there) desk.selection.set([there.id]);
      else {
        const id = newId(desk.store.plan, PREFIX.rooms);
        const room = { id, name: nextRoomName(desk.store.level, roomUse || "other"), use: roomUse || "other", at: /** @type {[number, number]} */ ([round(spot.at[0]), round(spot.at[1])]) };
        desk.store.commit("Name a room", addThings(desk.store.plan, desk.store.levelId, "rooms", [room]));
        desk.selection.set([id]);
        desk.say(`${room.name} named`);
      }
      desk.marks.clear();
      if (!roomUse || there) desk.tools.askFor("name"); // the tool stays: the next press names the next room
    },
    off: () => desk.marks.clear(),
  };
}

/** @param {Desk} desk @param {FixtureKind} kind @returns {Gesture} */
export function placeFixture(desk, kind) {
  /** @param {Spot} spot */
  const show = (spot) => {
    const to = snapped(desk, spot);
    desk.marks.show(snapMarks(to));
    desk.marks.say(to.at, FIXTURE_WORDS[kind], to.words);
    return to.at;
  };
  return {
    hint: `Press where the ${FIXTURE_WORDS[kind].toLowerCase()} is.`,
    move: show,
    press(spot) {
      const at = show(spot);
      const id = newId(desk.store.plan, PREFIX.fixtures);
      desk.store.commit(`Place a ${FIXTURE_WORDS[kind].toLowerCase()}`, addThings(desk.store.plan, desk.store.levelId, "fixtures", [{ id, kind, at, height: HEIGHTS[kind] ?? null }]));
      desk.selection.set([id]);
      desk.say(`${FIXTURE_WORDS[kind]} ${id} placed`);
    },
    off: () => desk.marks.clear(),
  };
}

/** @param {number} feet */
const round = (feet) => Math.round(feet * 1e4) / 1e4;
