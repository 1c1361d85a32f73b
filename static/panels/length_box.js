/**
 * The field beside the pointer in which a length is typed while something is drawn.
 */

/** @import { Desk } from "../desk.js" */

import { unitsOf } from "../plan/lookup.js";
import { parseLength } from "../plan/measures.js";

/** @param {Desk} desk @param {HTMLFormElement} form @returns {(first: string) => void} opens it with the first digit */
export function lengthBox(desk, form) {
  const input = /** @type {HTMLInputElement} */ (form.querySelector("input"));
  const label = /** @type {HTMLElement} */ (form.querySelector("span"));
  const fault = /** @type {HTMLElement} */ (form.querySelector("output"));
  const close = () => {
    form.hidden = true;
    desk.drawing.svg.focus({ preventScroll: true });
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const feet = parseLength(input.value, unitsOf(desk.store.plan));
    if (feet === null) {
      fault.textContent = "not a length: 12'-6\", 12-6, 3.81 m";
      return;
    }
    close();
    desk.pointer.gesture.typed?.(feet);
    if (desk.pointer.last) desk.pointer.gesture.move?.(desk.pointer.last);
  });
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    close();
  });
  input.addEventListener("input", () => (fault.textContent = ""));
  return (first) => {
    const { width, height } = desk.view.size;
    const { x, y } = desk.pointer.last ?? { x: 60, y: 60 };
    form.hidden = false;
    label.textContent = desk.pointer.gesture.asks ?? "Length"; // its length decides where the box finds room
    const [left, top] = [Math.min(x + 18, width - form.offsetWidth - 8), Math.min(y + 74, height - form.offsetHeight - 8)];
    form.style.transform = `translate(${Math.round(Math.max(8, left))}px, ${Math.round(top)}px)`;
    fault.textContent = "";
    input.value = first;
    input.focus({ preventScroll: true });
    input.setSelectionRange(first.length, first.length);
  };
}
