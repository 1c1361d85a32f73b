/**
 * The state of the saving, always told; faults that the server found, each leading to its thing; and the question
 * which plan is to stand where another edit came first.
 */

/** @import { Desk } from "../desk.js" */
/** @import { SavedState } from "../server/autosave.js" */

import { leadTo } from "../gestures/actions.js";
import { h } from "./html.js";

/** @type {Record<SavedState, string>} */
const WORDS = {
  saved: "Saved", unsaved: "Saving…", saving: "Saving…", away: "Not saved: server away, kept here",
  refused: "Not saved: the plan has faults, kept here", conflict: "Not saved: changed elsewhere, kept here",
};

/** @param {Desk} desk @param {HTMLElement} place */
export function showSaved(desk, place) {
  const draw = () => {
    const { state, keptHere, news } = desk.autosave;
    if (news && state === "saved") {
      desk.say(news, true);
      desk.autosave.news = "";
    }
    if (place.dataset.state === state && state !== "saved") return;
    place.dataset.state = state;
    const words = keptHere ? WORDS[state] : WORDS[state].replace("kept here", "and this browser keeps nothing: download the plan file");
    place.textContent = state === "saved" ? `${words} · rev ${desk.autosave.revision}` : words;
  };
  desk.autosave.listen(draw);
  draw();
}

/** @param {Desk} desk @param {HTMLElement} place */
export function showFaults(desk, place) {
  const draw = () => {
    const { state, faults, reason } = desk.autosave;
    place.hidden = state !== "refused";
    if (place.hidden) return;
    place.replaceChildren(
      h("h2", {}, "The plan cannot be saved as it is"),
      h("ul", {}, ...(faults.length ? faults : [{ at: "", message: reason }]).slice(0, 20).map((fault) => {
        const id = thingAt(desk, fault.at);
        return h("li", {}, id ? h("button", { type: "button", class: "link", onclick: () => leadTo(desk, id) }, id) : h("code", {}, fault.at), ` ${fault.message}`);
      })),
      h("p", { class: "quiet" }, "Mend it, or undo: it is saved again at once."));
  };
  desk.autosave.listen(draw);
}

/** The id of the thing that a place like levels[0].walls[3].b is in. @param {Desk} desk @param {string} at */
function thingAt(desk, at) {
  const found = /^levels\[(\d+)\]\.(walls|openings|fixtures|rooms|devices)\[(\d+)\]/.exec(at);
  if (!found) return null;
  const level = desk.store.plan.levels[Number(found[1])];
  return level?.[/** @type {"walls"} */ (found[2])]?.[Number(found[3])]?.id ?? null;
}

/** @param {Desk} desk @param {HTMLDialogElement} dialog */
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
  let asked = false;
  autosave.listen(() => {
    if (autosave.state === "conflict" && !asked) dialog.showModal();
    asked = autosave.state === "conflict";
  });
  return () => autosave.state === "conflict" && !dialog.open && dialog.showModal();
}
