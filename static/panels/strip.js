/**
 * The strip that always tells the state of the proof; each part leads, one after the other, to the things it counts.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Status } from "../plan/types.js" */

import { leadTo } from "../gestures/actions.js";
import { h } from "./html.js";
import { mark } from "./status.js";

/** @param {Desk} desk @param {HTMLElement} place @param {(step: string) => void} showStep */
export function showStrip(desk, place, showStep) {
  /** @type {Record<string, number>} which of its things a part led to last */
  const turns = {};
  /** @param {string} part @param {{id: string, pane?: string}[]} things */
  const lead = (part, things) => {
    if (!things.length) return;
    const turn = (turns[part] ?? -1) + 1;
    turns[part] = turn;
    const thing = things[turn % things.length];
    if (!thing) return;
    leadTo(desk, thing.id, thing.pane ?? null);
    desk.say(`${(turn % things.length) + 1} of ${things.length}`);
  };
  const draw = () => {
    const { answer } = desk.proof;
    place.dataset.state = desk.proof.tried ? "tried" : desk.proof.isCurrent ? "current" : "stale";
    if (!answer) return place.replaceChildren(h("p", { class: "quiet" }, "Working out the proof…"));
    const panes = desk.proof.panes;
    /** @param {Status} status */
    const of = (status) => panes.filter((pane) => pane.status === status).map((pane) => ({ id: pane.opening, pane: pane.id }));
    const musts = answer.findings.filter((finding) => finding.severity === "must");
    const shoulds = answer.findings.filter((finding) => finding.severity === "should");
    const [covered, partial, uncovered] = [of("covered"), of("partial"), of("uncovered")];
    /** @param {string} part @param {Parameters<typeof mark>[0]} state @param {string} words @param {{id: string, pane?: string}[]} things */
    const button = (part, state, words, things) => h("button", { type: "button", class: `strip-part ${state}`, "data-part": part, disabled: !things.length, onclick: () => lead(part, things) }, mark(state), h("span", {}, words));
    const told = (/** @type {typeof musts} */ list) => list.flatMap((finding) => (finding.things[0] ? [{ id: finding.things[0] }] : []));
    place.replaceChildren(
      button("covered", "covered", panes.length ? `${covered.length} of ${panes.length} panes covered` : "no glass yet", covered),
      button("partial", "partial", `${partial.length} partial`, partial),
      button("uncovered", "uncovered", `${uncovered.length} uncovered`, uncovered),
      button("must", "must", `${musts.length} ${musts.length === 1 ? "thing" : "things"} to mend`, told(musts)),
      button("should", "should", `${shoulds.length} better`, told(shoulds)),
      h("span", { class: "strip-state", role: "status" }, desk.proof.tried ? "as tried" : desk.proof.isCurrent ? "" : stale(desk)),
      h("button", { type: "button", class: "strip-part link", onclick: () => showStep("Proof") }, "All findings"));
  };
  desk.proof.listen((topic) => topic === "answer" && draw());
  desk.autosave.listen(draw);
  draw();
}

/** @param {Desk} desk */
const stale = (desk) => (desk.autosave.state === "away" || desk.autosave.state === "refused" ? "of the plan as last saved" : "working…");
