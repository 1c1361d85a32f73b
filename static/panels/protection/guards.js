/**
 * Stay and away: what watches each opening and each room, and what somebody at home gives up while motion is off.
 */

/** @import { ArmingState, OpeningStates, ProtectionAnswer, RoomStates, Watch } from "../../plan/protection_types.js" */
/** @import { Desk } from "../../desk.js" */
/** @import { Redraw, View } from "./view.js" */

import { drawGuardedFloors, drawGuards, roomWords } from "../../drawing/protection/guards.js";
import { WATCHES, watchMark } from "../../drawing/protection/watch_marks.js";
import { unitsOf } from "../../plan/lookup.js";
import { areaText } from "../../plan/measures.js";
import { h } from "../html.js";
import { link, nameIn, namesIn, point, quiet, stateSwitch, table, whereIn } from "./words.js";

/** @type {Watch[]} the worst first */
const ORDER = ["nothing", "inside", "at the opening"];

/** @param {Desk} desk @param {Redraw} redraw @returns {View} */
export function guards(desk, redraw) {
  /** @type {ArmingState} */
  let state = "stay";
  const tables = h("div");
  const element = h("div", {}, stateSwitch("guards", state, (next) => {
    state = next;
    redraw();
  }), tables);
  const seen = (/** @type {ProtectionAnswer} */ answer) => ({ answer, check: desk.proof.answer, level: desk.store.level, state, chosen: desk.selection.ids, view: desk.view });
  return {
    name: "guards",
    title: "Stay, away",
    words: "What tells of each opening and watches each room",
    element,
    fill(answer) {
      desk.drawing.board.dataset.armed = state;
      tables.replaceChildren(...summary(desk, answer, state), h("h3", {}, "Openings outdoors"), openings(desk, answer, state), h("h3", {}, "Rooms"), rooms(desk, answer, state));
    },
    under: (answer) => drawGuardedFloors(seen(answer)),
    over: (answer) => drawGuards(seen(answer)),
  };
}

/** @param {Desk} desk @param {ProtectionAnswer} answer @param {ArmingState} state */
function summary(desk, answer, state) {
  const { openings: all, stay_loses: loses } = answer.states;
  const count = (/** @type {Watch} */ watch) => all.filter((opening) => opening[state] === watch).length;
  return [
    h("p", { class: "watch-counts" }, ...ORDER.map((watch) => h("span", { class: `watch-count watch-${WATCHES[watch].kind}` }, watchMark(watch), ` ${count(watch)} ${WATCHES[watch].words}`))),
    state === "stay" ? h("div", { class: "loses" }, h("p", {}, h("b", {}, "At home: "), loses.words), loses.openings.length ? quiet(`Told from inside only while away: ${namesIn(desk, loses.openings)}.`) : null, loses.rooms.length ? quiet(`Watched in away only: ${namesIn(desk, loses.rooms)}.`) : null) : quiet("In away every detector is on."),
  ];
}

/** @param {Desk} desk @param {ProtectionAnswer} answer @param {ArmingState} state */
function openings(desk, answer, state) {
  const list = answer.states.openings.slice().sort((one, two) => ORDER.indexOf(one[state]) - ORDER.indexOf(two[state]));
  if (!list.length) return quiet("No opening leads outdoors yet.");
  return table("Openings outdoors: what tells of them", ["Opening", "Stay", "Away"], list.map((opening) => h("tr", { "data-thing": opening.id, class: desk.selection.ids.has(opening.id) ? "chosen" : "" },
    h("th", { scope: "row" }, link(nameIn(desk, opening.id), () => point(desk, opening.id)), h("small", {}, whereIn(desk, opening.room, opening.level))),
    ...(/** @type {ArmingState[]} */ (["stay", "away"])).map((column) => h("td", { class: column === state ? "in-force" : "" }, watchMark(opening[column]), ` ${WATCHES[opening[column]].words}`, h("small", {}, by(desk, opening, column)))))));
}

/** Who watches, or what is missing. @param {Desk} desk @param {OpeningStates} opening @param {ArmingState} state */
function by(desk, opening, state) {
  if (opening[state] === "at the opening") return namesIn(desk, [...opening.contacts, ...opening.listeners]) || "nobody comes in by it";
  const gaps = opening.gaps.map((gap) => GAPS[gap] + (gap === "broken" ? ` (${opening.deaf.length === 1 ? "lite" : "lites"} ${opening.deaf.map((lite) => lite.split("/").at(-1)).join(", ")})` : "")).join("; ");
  return opening[state] === "inside" ? `${namesIn(desk, opening.motions)}; ${gaps}` : gaps;
}

/** @type {Record<"opened" | "broken" | "open", string>} */
const GAPS = { opened: "no contact", broken: "glass not heard", open: "a bare hole" };

/** @param {Desk} desk @param {ProtectionAnswer} answer @param {ArmingState} state */
function rooms(desk, answer, state) {
  const several = desk.store.plan.levels.length > 1;
  return table("Rooms: what watches them", ["Room", "Stay", "Away"], answer.states.rooms.map((room) => h("tr", {},
    h("th", { scope: "row" }, link(room.name || room.id, () => point(desk, room.id)), several ? h("small", {}, desk.store.plan.levels.find((level) => level.id === room.level)?.name ?? "") : null),
    ...(/** @type {ArmingState[]} */ (["stay", "away"])).map((column) => h("td", { class: column === state ? "in-force" : "" }, roomWords(room, answer.states.openings, column), h("small", {}, roomBy(desk, room, column)))))));
}

/** @param {Desk} desk @param {RoomStates} room @param {ArmingState} state */
function roomBy(desk, room, state) {
  const names = namesIn(desk, room[state]) || (room.openings.length ? "nothing watches" : "—");
  return state === "stay" && room.lost_in_stay_sqft > 0.5 ? `${names}; ${areaText(room.lost_in_stay_sqft, unitsOf(desk.store.plan))} given up` : names;
}
