/**
 * The question which plan is to stand where another edit came first.
 */

/** @import { Desk } from "../desk.js" */

import { h } from "./html.js";

/** Asks now, and whenever another edit comes first. @param {Desk} desk @param {HTMLDialogElement} dialog @returns {() => void} asks again */
export function askOnConflict(desk, dialog) {
  const { autosave } = desk;
  /** @param {string} words @param {string} more @param {() => Promise<void>} act */
  const choice = (words, more, act) => h("button", { type: "button", class: "choice", onclick: () => choose(act) }, h("b", {}, words), h("span", {}, more));
  const fault = h("p", { class: "fault", role: "alert" });
  /** @param {() => Promise<void>} act */
  async function choose(act) {
    fault.textContent = "";
    try {
      await act();
      dialog.close();
    } catch (error) {
      fault.textContent = `That did not work: ${error instanceof Error ? error.message : error}. Both plans are as they were.`;
    }
  }
  dialog.append(
    h("h2", {}, "This plan was changed elsewhere"),
    h("p", {}, "Another tab or person saved a newer revision while this one had changes. Nothing is overwritten until you choose."),
    choice("Keep mine", "as a new revision on top; theirs stays among the revisions", () => autosave.keepMine()),
    choice("Take theirs", "mine stays one undo step away", () => autosave.takeTheirs()),
    choice("Save mine as a copy", "a plan of its own; this one stays theirs", async () => void location.assign(`/plans/${await autosave.saveCopy()}`)),
    fault,
    h("button", { type: "button", class: "link", onclick: () => dialog.close() }, "Decide later: mine is kept in this browser"));
  const ask = () => void (autosave.state === "conflict" && !dialog.open && dialog.showModal());
  let asked = autosave.state === "conflict";
  autosave.listen(() => {
    if (!asked) ask();
    asked = autosave.state === "conflict";
  });
  ask();
  return ask;
}
