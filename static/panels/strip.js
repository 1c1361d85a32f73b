/**
 * The strip that always tells the state of the proof; each part leads, one after the other, to the things it counts.
 */

/** @import { Desk } from "../desk.js" */
/** @typedef {"covered" | "partial" | "uncovered" | "must" | "should"} Part */

import { leadTo } from "../gestures/actions.js";
import { byId, h } from "./html.js";
import { mark } from "./status.js";

/** @param {Desk} desk @param {HTMLElement} place @param {(step: string) => Promise<void>} showStep */
export function showStrip(desk, place, showStep) {
  /** @type {Record<string, number>} which of its things a part led to last */
  const turns = {};
  /** @param {Part} part */
  const lead = (part) => {
    const things = thingsOf(desk, part);
    if (!things.length) return;
    const turn = (turns[part] ?? -1) + 1;
    turns[part] = turn;
    const thing = things[turn % things.length];
    if (!thing) return;
    leadTo(desk, thing.id, thing.pane ?? null);
    desk.say(`${(turn % things.length) + 1} of ${things.length}`);
  };
  const buttons = /** @type {const} */ (["covered", "partial", "uncovered", "must", "should"]).map((part) => {
    const words = h("span");
    const button = h("button", { type: "button", class: `strip-part ${part}`, "data-part": part, onclick: () => lead(part) }, mark(part), words);
    return { part, words, button };
  });
  const findings = async () => {
    await showStep("Proof");
    byId("panel", HTMLElement).scrollIntoView(); // properties or a pane may stand above
  };
  const state = h("span", { class: "strip-state", role: "status" });
  place.append(...buttons.map(({ button }) => button), state, h("button", { type: "button", class: "strip-part link", onclick: findings }, "All findings"));
  const draw = () => {
    const told = desk.proof.tried ? "tried" : desk.proof.isCurrent ? "current" : "stale";
    if (place.dataset.state !== told) place.dataset.state = told;
    for (const { part, words, button } of buttons) {
      const count = thingsOf(desk, part).length;
      write(words, wordsOf(part, count, desk.proof.panes.length));
      button.disabled = !count;
    }
    write(state, !desk.proof.answer ? "working out the proof…" : desk.proof.tried ? "as tried" : desk.proof.isCurrent ? "" : stale(desk));
  };
  desk.proof.listen((topic) => topic === "answer" && draw());
  desk.autosave.listen(draw);
  draw();
}

/** What a part of the strip counts. @param {Desk} desk @param {Part} part @returns {{id: string, pane?: string}[]} */
function thingsOf(desk, part) {
  if (part === "must" || part === "should") {
    return (desk.proof.answer?.findings ?? []).filter((finding) => finding.severity === part).map((finding) => ({ id: finding.things[0] ?? "" }));
  }
  return desk.proof.panes.filter((pane) => pane.status === part).map((pane) => ({ id: pane.opening, pane: pane.id }));
}

/** @param {Part} part @param {number} count @param {number} panes */
function wordsOf(part, count, panes) {
  switch (part) {
    case "covered": return panes ? `${count} of ${panes} panes covered` : "no glass yet";
    case "must": return `${count} ${count === 1 ? "thing" : "things"} to mend`;
    case "should": return `${count} better`;
    default: return `${count} ${part}`;
  }
}

/** Words are written only where they change, so that nothing is laid out for nothing. @param {HTMLElement} place @param {string} words */
function write(place, words) {
  if (place.textContent !== words) place.textContent = words;
}

/** @param {Desk} desk */
const stale = (desk) => (["away", "refused", "conflict"].includes(desk.autosave.state) ? "of the plan as last saved" : "working…");
