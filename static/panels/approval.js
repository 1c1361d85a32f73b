/**
 * How the plan stands to what the client approved, told in the strip at every step; it leads to the revisions.
 * Nothing is told, and nothing asked again, while no revision is approved.
 */

/** @import { Standing } from "../plan/history_types.js" */
/** @import { Desk } from "../desk.js" */

import { call } from "../server/api.js";
import { h } from "./html.js";

const PAUSE = 1500; // ms after a save

/** @param {Desk} desk @param {HTMLElement} place @param {(step: string) => void} showStep */
export function showApproval(desk, place, showStep) {
  const words = h("span");
  const button = h("button", { type: "button", class: "strip-part approval", hidden: true, onclick: () => showStep("Handover") }, words);
  place.append(button);
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;
  let asked = -1;
  const ask = async () => {
    asked = desk.autosave.revision;
    /** @type {Standing | null} */
    const told = await call(`/api/plans/${desk.planId}/standing`).then((answer) => answer.json(), () => null);
    if (!told) return void (asked = -1); // the server is away, which is told elsewhere; the next save asks again
    button.hidden = told.approved === null;
    button.dataset.state = told.changes ? "differs" : "approved";
    button.title = `${told.words}; its revisions are in step Handover`;
    words.textContent = told.changes ? `${told.changes} change${told.changes === 1 ? "" : "s"} since approval` : "As approved";
  };
  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(ask, PAUSE);
  };
  desk.autosave.listen(() => desk.autosave.state === "saved" && !button.hidden && asked !== desk.autosave.revision && later());
  addEventListener("studbay-history", ask);
  ask();
}
