/**
 * What keys do while something is drawn or placed, for a finger: the sentence that says what comes next, and buttons that
 * type a length, turn what is held and leave. Fetched only where the first pointer is a finger.
 */

/** @import { Desk } from "../desk.js" */

import { h } from "./html.js";

/** @type {Record<string, string>} what Enter does with a tool, where it is no second way to leave */
const ENTERS = { name: "All in turn", obstruction: "Close" };

/** @param {Desk} desk @param {HTMLElement} sheet the drawing's place */
export function touchBar(desk, sheet) {
  const gesture = () => desk.pointer.gesture;
  const words = h("p", {});
  const type = h("button", { type: "button", onclick: () => desk.askLength() }, "Type…");
  const enter = h("button", { type: "button", onclick: () => gesture().enter?.() });
  const turns = [90, -90].map((degrees) => h("button", { type: "button", class: "icon", "aria-label": `Turn by 90° to the ${degrees > 0 ? "left" : "right"}`, onclick: () => gesture().turn?.(degrees) }, degrees > 0 ? "↺" : "↻"));
  const leave = h("button", { type: "button", class: "primary", onclick: () => gesture().escape?.() || desk.tools.use("select") }, "Done");
  const bar = h("div", { class: "touch-bar", role: "group", "aria-label": "What is drawn or placed", hidden: true }, words, ...turns, enter, type, leave);
  const draw = () => {
    const { hint, asks, turn } = gesture();
    const { current } = desk.tools;
    bar.hidden = current === "select";
    words.textContent = firstSentence(hint);
    type.hidden = !asks;
    type.setAttribute("aria-label", `Type… ${asks ?? ""}`);
    enter.textContent = ENTERS[current] ?? "";
    enter.hidden = !enter.textContent;
    for (const button of turns) button.hidden = !turn;
  };
  sheet.append(bar);
  desk.pointer.listen(draw);
  desk.tools.listen(draw);
  draw();
}

/** What follows the first sentence speaks of keys. @param {string} hint */
const firstSentence = (hint) => /^.*?[.](?= |$)/.exec(hint)?.[0] ?? hint;
