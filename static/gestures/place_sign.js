/**
 * Put down what stands at one point: a room's name, a light switch, the chime, a register, a bed, an outlet.
 */

/** @import { FixtureKind, Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Worded } from "../panels/length_box.js" */
/** @import { Gesture, Spot } from "./gesture.js" */

import { marksOf, sketch } from "../drawing/marks.js";
import { PREFIX, addThings } from "../plan/edits.js";
import { FIXTURE_WORDS, newId } from "../plan/lookup.js";
import { unnamedPlaces } from "../plan/room_places.js";
import { ROOM_USES, nextRoomName, useOfName, useWords } from "../plan/room_uses.js";
import { AT_FACE, onFace } from "./device_places.js";
import { snapMarks, snapped } from "./field.js";
import { inside } from "../geometry/points.js";

/** @type {Partial<Record<FixtureKind, number>>} usual heights above the floor, ft */
const HEIGHTS = { light_switch: 4, chime: 7, supply_register: 8.5, bed: 2, outlet: 1 };

/** @param {Desk} desk @returns {Worded} */
export function nameRoom(desk) {
  /** @type {Point | null} the place in the room that is named now, while rooms are named in turn */
  let turn = null;
  /** @type {Point[]} places of rooms that were passed over */
  let passed = [];
  const faces = () => desk.proof.answer?.levels?.find((entry) => entry.id === desk.store.levelId)?.faces ?? [];

  function next() {
    const rooms = [...(desk.store.level.rooms ?? []), ...passed.map((at) => ({ at }))];
    turn = unnamedPlaces(faces(), rooms)[0] ?? null;
    const face = turn && faces().find((ring) => inside(/** @type {Point} */ (turn), ring));
    marksOf(desk).show(face ? [sketch(face, true)] : []);
    marksOf(desk).say([0, 0], "");
    if (!turn) desk.say("Every closed room has its name");
    desk.pointer.tell();
  }

  async function begin() {
    passed = [];
    await desk.autosave.now(); // rooms are the server's to find
    await desk.proof.refresh();
    next();
    if (turn) desk.askLength();
    else desk.say("No closed room is without a name", true);
  }

  /** A name for the room in turn; none passes it over. @param {string} text */
  function words(text) {
    if (!turn) return "";
    const name = text.trim().slice(0, 120);
    if (name) {
      const room = { id: newId(desk.store.plan, PREFIX.rooms), name, use: useOfName(name), at: turn };
      desk.store.commit("Name a room", addThings(desk.store.plan, desk.store.levelId, "rooms", [room]));
      desk.say(`${name}: ${useWords(room.use)}`);
    } else passed.push(turn);
    next();
    return "";
  }

  return {
    hint: "Press inside a room to name it, or Enter to name all rooms in turn; with a use chosen, room after room.",
    get asks() {
      return turn ? "Name of this room" : undefined;
    },
    get askedAt() {
      return turn;
    },
    offered: ROOM_USES.filter(([use]) => use !== "other").map(([, text]) => text),
    words,
    enter: () => void begin(),
    move(spot) {
      if (turn) return;
      const face = faces().find((ring) => inside(spot.at, ring));
      const { roomUse } = desk.tools;
      marksOf(desk).show(face ? [sketch(face, true)] : []);
      marksOf(desk).say(spot.at, roomUse ? nextRoomName(desk.store.level, roomUse) : "", face ? (roomUse ? "" : "name this room") : "no walls close a room here");
    },
    press(spot) {
      turn = null;
      desk.pointer.tell();
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
      marksOf(desk).clear();
      if (!roomUse || there) desk.tools.askFor("name"); // the tool stays: the next press names the next room
    },
    escape() {
      const was = turn !== null;
      turn = null;
      marksOf(desk).clear();
      desk.pointer.tell();
      return was;
    },
    off() {
      turn = null;
      marksOf(desk).clear();
    },
  };
}

/** @type {Set<FixtureKind>} what is fixed on a wall's face */
const ON_WALLS = new Set(["light_switch", "chime", "outlet"]);
const NEAR_FACE = 16; // px

/** @param {Desk} desk @param {FixtureKind} kind @returns {Gesture} */
export function placeFixture(desk, kind) {
  /** @param {Spot} spot */
  const show = (spot) => {
    const face = !spot.free && ON_WALLS.has(kind) ? onFace(spot.at, desk.store.committedLevel, Math.max(AT_FACE, NEAR_FACE / desk.view.scale))?.snapped : null;
    const to = face ?? snapped(desk, spot);
    marksOf(desk).show(snapMarks(to));
    marksOf(desk).say(to.at, FIXTURE_WORDS[kind], to.words);
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
    off: () => marksOf(desk).clear(),
  };
}

/** @param {number} feet */
const round = (feet) => Math.round(feet * 1e4) / 1e4;
