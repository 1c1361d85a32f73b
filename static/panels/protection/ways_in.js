/**
 * Ways in: for each opening the walk that goes on unseen longest, the longest first; for a chosen opening the walk on
 * the drawing, with who notices it first and second and after how many feet.
 */

/** @import { ArmingState, ProtectionAnswer, Unseen, WayIn } from "../../plan/protection_types.js" */
/** @import { Desk } from "../../desk.js" */
/** @import { Redraw, View } from "./view.js" */

import { HOW, drawWayIn } from "../../drawing/protection/ways_in.js";
import { practiceOf } from "../../plan/lookup.js";
import { h } from "../html.js";
import { feetIn, link, nameIn, point, quiet, stateSwitch, table, whereIn } from "./words.js";

/** @param {Desk} desk @param {Redraw} redraw @returns {View} */
export function waysIn(desk, redraw) {
  /** @type {ArmingState} */
  let state = "stay";
  /** @type {Map<string, string>} the goal chosen for an opening */
  const goals = new Map();
  const lists = h("div");
  const element = h("div", {}, stateSwitch("ways", state, (next) => {
    state = next;
    redraw();
  }), lists);
  /** @type {string | null} the opening chosen last: it stays when another level is shown */
  let held = null;
  /** The opening chosen on the drawing or in the table, else the worst. @param {ProtectionAnswer} answer */
  const opening = (answer) => {
    const own = answer.ways_in.find((way) => desk.selection.ids.has(way.opening)) ?? answer.ways_in.find((way) => way.opening === held);
    held = own?.opening ?? null;
    return held ?? worstFirst(answer, state)[0]?.opening ?? null;
  };
  const choose = (/** @type {string} */ id, /** @type {string} */ goal) => {
    goals.set(id, goal);
    point(desk, id);
    redraw();
  };
  const chosen = (/** @type {ProtectionAnswer} */ answer) => {
    const own = answer.ways_in.filter((way) => way.opening === opening(answer));
    return { own, way: own.find((way) => way.goal === goals.get(way.opening)) ?? longest(own, state) };
  };
  return {
    name: "ways",
    title: "Ways in",
    words: "From each opening to the bedrooms and the heart of the home",
    element,
    fill(answer) {
      const { own, way } = chosen(answer);
      lists.replaceChildren(
        ...(way ? [card(desk, way, own, state, (goal) => choose(way.opening, goal))] : [h("p", {}, "No way in yet: openings outdoors and a named bedroom or living room are needed.")]),
        ...unseenList(desk, answer, state, choose), everyOpening(desk, answer, state, way?.opening ?? "", choose), ...noWay(desk, answer));
    },
    under: () => [],
    over(answer) {
      const { own, way } = chosen(answer);
      if (!way) return [];
      return drawWayIn(way, own, state, desk.store.shown, desk.store.level, desk.view, { feet: (feet) => feetIn(desk, feet), tag: (device) => nameIn(desk, device) });
    },
  };
}

/** @param {WayIn[]} ways @param {ArmingState} state */
const longest = (ways, state) => ways.reduce((/** @type {WayIn | null} */ worst, way) => (worst && worst[state].unseen_ft >= way[state].unseen_ft ? worst : way), null);

/** The worst way of each opening, the worst opening first. @param {ProtectionAnswer} answer @param {ArmingState} state @returns {WayIn[]} */
function worstFirst(answer, state) {
  /** @type {Map<string, WayIn>} */
  const worst = new Map();
  for (const way of answer.ways_in) {
    const held = worst.get(way.opening);
    if (!held || way[state].unseen_ft > held[state].unseen_ft) worst.set(way.opening, way);
  }
  return [...worst.values()].sort((one, two) => two[state].unseen_ft - one[state].unseen_ft);
}

/** The chosen way in words. @param {Desk} desk @param {WayIn} way @param {WayIn[]} own @param {ArmingState} state @param {(goal: string) => void} choose */
function card(desk, way, own, state, choose) {
  const seen = way[state];
  const line = (/** @type {string} */ number, /** @type {WayIn["stay"]["first"]} */ notice) => h("li", {}, h("b", {}, number), notice ? ` ${nameIn(desk, notice.device)} ${HOW[notice.how] ?? notice.how} ${notice.feet < 0.05 ? "at the opening" : `after ${feetIn(desk, notice.feet)}`}` : " nobody");
  return h("section", { class: "one-way", "aria-label": "The chosen way in" },
    h("p", {}, h("b", {}, nameIn(desk, way.opening)), ` ${how(way)}`),
    h("label", { class: "goal" }, "to ", h("select", { onchange: (/** @type {Event} */ event) => choose(/** @type {HTMLSelectElement} */ (event.target).value) }, ...own.map((other) => h("option", { value: other.goal, selected: other === way }, `${nameIn(desk, other.goal)}, ${feetIn(desk, other.feet)}`)))),
    h("ol", { class: "notices" }, line("First:", seen.first), line("Second:", seen.second)),
    seen.first && seen.unseen_ft < 0.05 ? quiet("Noticed at the opening.") : h("p", { class: "unseen-words" }, `${feetIn(desk, seen.unseen_ft)} unseen${seen.first ? "" : ", the whole walk"}.`));
}

/** @param {WayIn} way */
const how = (way) => (way.gaps[0] ? { opened: "opened: it has no contact", broken: "broken: its glass is not heard whole", open: "is a bare hole" }[way.gaps[0]] ?? "" : "is told when it is opened or broken");

/** @param {Desk} desk @param {ProtectionAnswer} answer @param {ArmingState} state @param {(opening: string, goal: string) => void} choose */
function unseenList(desk, answer, state, choose) {
  const most = feetIn(desk, Number(practiceOf(desk.store.plan, desk.tables, "walk.unseen")));
  const list = answer.unseen.filter((one) => one.state === state).sort((one, two) => two.unseen_ft - one.unseen_ft);
  const title = h("h3", {}, `More than ${most} unseen in ${state}: ${list.length || "none"}`);
  if (!list.length) return [title];
  return [title, h("ul", { class: "unseen-list" }, ...list.map((one) => h("li", {}, h("button", { type: "button", class: "finding", onclick: () => choose(one.opening, one.goal) }, h("b", { class: "number" }, feetIn(desk, one.unseen_ft)), h("span", {}, `${nameIn(desk, one.opening)} to ${nameIn(desk, one.goal)}`, h("small", {}, unseenWords(desk, answer, one))))))), quiet(`${list[0]?.source ?? ""}.`)];
}

/** @param {Desk} desk @param {ProtectionAnswer} answer @param {Unseen} one */
function unseenWords(desk, answer, one) {
  const way = answer.ways_in.find((entry) => entry.opening === one.opening && entry.goal === one.goal);
  const first = way?.[one.state].first;
  return `${way ? how(way) : ""}; ${first ? `then ${nameIn(desk, first.device)} ${HOW[first.how] ?? first.how}` : "nobody notices"}`;
}

/** @param {Desk} desk @param {ProtectionAnswer} answer @param {ArmingState} state @param {string} chosen @param {(opening: string, goal: string) => void} choose */
function everyOpening(desk, answer, state, chosen, choose) {
  const rows = worstFirst(answer, state);
  const told = (/** @type {WayIn["stay"]["first"]} */ notice) => (notice ? [nameIn(desk, notice.device), h("small", {}, `${HOW[notice.how] ?? notice.how}, ${notice.feet < 0.05 ? "at the opening" : feetIn(desk, notice.feet)}`)] : ["nobody"]);
  return h("details", { class: "every-way", open: true }, h("summary", {}, "Every opening, its longest way unseen"), table("Ways in by opening", ["From", "First", "Second"], rows.map((way) => {
    const opening = answer.states.openings.find((entry) => entry.id === way.opening);
    return h("tr", { class: way.opening === chosen ? "chosen" : "", "data-thing": way.opening },
      h("th", { scope: "row" }, link(nameIn(desk, way.opening), () => choose(way.opening, way.goal), way.opening === chosen ? { "aria-current": "true" } : {}), h("small", {}, whereIn(desk, opening?.room ?? null, opening?.level ?? ""))),
      h("td", {}, ...told(way[state].first)), h("td", {}, ...told(way[state].second)));
  })));
}

/** @param {Desk} desk @param {ProtectionAnswer} answer */
function noWay(desk, answer) {
  if (!answer.no_way.length) return [];
  return [h("h3", {}, "No way on foot"), h("ul", { class: "plain-list" }, ...answer.no_way.map((one) => h("li", {}, link(nameIn(desk, one.opening), () => point(desk, one.opening)), ` ${one.words}`)))];
}
