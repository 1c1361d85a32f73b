/**
 * The field beside the pointer in which a length is typed while something is drawn; a gesture that reads words as well
 * takes sizes and names.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Gesture } from "../gestures/gesture.js" */

import { unitsOf } from "../plan/lookup.js";
import { parseLength } from "../plan/measures.js";

/**
 * A gesture that reads more than lengths. `words`: what is wrong with the text, "" where it was taken, null where it
 * is a length; `askedAt`: where the field stands; `offered`: what may be chosen in it.
 * @typedef {Gesture & {words?: (text: string) => string | null, askedAt?: Point | null, offered?: string[]}} Worded
 */

/** @param {Desk} desk @param {HTMLFormElement} form @returns {(first: string) => void} opens it with the first digit */
export function lengthBox(desk, form) {
  const input = /** @type {HTMLInputElement} */ (form.querySelector("input"));
  const label = /** @type {HTMLElement} */ (form.querySelector("span"));
  const fault = /** @type {HTMLElement} */ (form.querySelector("output"));
  const close = () => {
    form.hidden = true;
    desk.drawing.board.focus({ preventScroll: true });
  };
  /** @returns {Worded} */
  const gesture = () => desk.pointer.gesture;
  const offers = document.createElement("datalist");
  offers.id = "length-box-offers";
  form.append(offers);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const told = gesture().words?.(input.value) ?? null;
    if (told) {
      fault.textContent = told;
      return;
    }
    if (told === "") return taken();
    const feet = parseLength(input.value, unitsOf(desk.store.plan));
    if (feet === null) {
      fault.textContent = "not a length: 12'-6\", 12-6, 3.81 m";
      return;
    }
    close();
    desk.pointer.gesture.typed?.(feet);
    if (desk.pointer.last) desk.pointer.gesture.move?.(desk.pointer.last);
  });
  /** Words were taken: the next are asked for at once where there is a place for them. */
  function taken() {
    close();
    if (gesture().askedAt) open("");
    else if (desk.pointer.last) gesture().move?.(desk.pointer.last);
  }
  desk.pointer.listen(() => !gesture().asks && !form.hidden && close());
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    close();
  });
  input.addEventListener("input", () => (fault.textContent = ""));
  /** @param {string} first */
  function open(first) {
    const { width, height } = desk.view.size;
    const { askedAt, offered = [] } = gesture();
    const { x, y } = askedAt ? desk.view.toScreen(askedAt) : desk.pointer.last ?? { x: 60, y: 60 };
    offers.replaceChildren(...offered.map((words) => new Option(words, words)));
    input.toggleAttribute("list", offered.length > 0);
    if (offered.length) input.setAttribute("list", offers.id);
    form.hidden = false;
    label.textContent = desk.pointer.gesture.asks ?? "Length"; // its length decides where the box finds room
    const [left, top] = [Math.min(x + 18, width - form.offsetWidth - 8), Math.min(y + 74, height - form.offsetHeight - 8)];
    form.style.transform = `translate(${Math.round(Math.max(8, left))}px, ${Math.round(top)}px)`;
    fault.textContent = "";
    input.value = first;
    input.focus({ preventScroll: true });
    input.setSelectionRange(first.length, first.length);
  }
  return open;
}
