/**
 * The state of the saving, always told, and faults that the server found, each leading to its thing.
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
