/**
 * The question before a page to share leaves the machine: why it is asked, what the page shows, what may be left out.
 */

/** @import { Desk } from "../desk.js" */

import { call } from "../server/api.js";
import { h } from "./html.js";

/** @typedef {{why: string, shows: string[], leavable: Record<string, string>}} ShareContents */

/**
 * @param {Desk} desk @param {(leftOut: string[]) => void} agreed called with what is to be left out
 * @returns {{element: HTMLDialogElement, ask: () => Promise<void>}}
 */
export function shareQuestion(desk, agreed) {
  const body = h("div");
  const element = h("dialog", { class: "share-question", "aria-labelledby": "share-title" }, body);

  const ask = async () => {
    body.replaceChildren(title(), h("p", { role: "status" }, "Working out what it would show…"), h("div", { class: "buttons" }, keep()));
    element.showModal();
    try {
      await desk.autosave.now();
      const contents = /** @type {ShareContents} */ (await (await call(`/api/plans/${desk.planId}/share`)).json());
      body.replaceChildren(...question(contents));
    } catch (trouble) {
      body.replaceChildren(title(), h("p", { role: "alert" }, `The page cannot be made: ${trouble instanceof Error ? trouble.message : "something went wrong"}.`), h("div", { class: "buttons" }, keep()));
    }
  };

  const title = () => h("h2", { id: "share-title" }, "Before it leaves this machine");
  const keep = () => h("button", { type: "button", onclick: () => element.close() }, "Keep it here");

  /** @param {ShareContents} contents */
  const question = ({ why, shows, leavable }) => {
    const boxes = Object.entries(leavable).map(([key, words]) => ({ key, words, box: h("input", { type: "checkbox", name: key }) }));
    return [
      title(),
      h("p", { class: "caution" }, why),
      h("p", {}, "It will show:"),
      h("ul", {}, ...shows.map((line) => h("li", {}, line))),
      h("fieldset", {}, h("legend", {}, "Leave out"), ...boxes.map(({ box, words }) => h("label", {}, box, words))),
      h("div", { class: "buttons" },
        keep(),
        h("button", { type: "button", class: "main", onclick: () => {
          element.close();
          agreed(boxes.filter(({ box }) => box.checked).map(({ key }) => key));
        } }, "I know what it shows: save the page")),
    ];
  };
  return { element, ask };
}
