/**
 * Small forms that ask before something is said of a revision: labelled fields, what it means, and the fault beside it.
 */

import { h } from "../html.js";

/**
 * @typedef {Object} Asked
 * @property {string} key
 * @property {string} label
 * @property {string} [value]
 * @property {"text" | "date"} [type]
 * @property {number} [most] letters
 * @property {boolean} [optional]
 */

/**
 * @param {string} title @param {string} meaning what will hold afterwards @param {Asked[]} asked @param {string} act words of the button
 * @param {(said: Record<string, string>) => Promise<void>} done called with what was typed; what it throws is told
 * @param {() => void} close called when the form is done with
 */
export function askForm(title, meaning, asked, act, done, close) {
  const inputs = asked.map((field) => h("input", { name: field.key, type: field.type ?? "text", value: field.value ?? "", maxlength: field.most ?? 120, required: !field.optional, autocomplete: "off" }));
  const fault = h("p", { class: "fault", role: "alert" });
  const button = h("button", { type: "submit", class: "main" }, act);
  const form = h("form", {
    class: "ask-form", "aria-label": title,
    onsubmit: async (/** @type {Event} */ event) => {
      event.preventDefault();
      fault.textContent = "";
      button.disabled = true;
      try {
        await done(Object.fromEntries(inputs.map((input) => [input.name, input.value.trim()])));
        close();
      } catch (error) {
        fault.textContent = error instanceof Error ? error.message : String(error);
      } finally {
        button.disabled = false;
      }
    },
    onkeydown: (/** @type {KeyboardEvent} */ event) => event.key === "Escape" && (event.stopPropagation(), close()),
  },
  h("h4", {}, title),
  meaning && h("p", { class: "quiet" }, meaning),
  ...asked.map((field, i) => h("label", {}, h("span", {}, field.label, field.optional ? h("small", {}, " if any") : null), inputs[i] ?? null)),
  fault,
  h("div", { class: "buttons" }, button, h("button", { type: "button", onclick: close }, "Cancel")));
  const focus = () => {
    (inputs[0] ?? button).focus();
    inputs[0]?.select();
  };
  return { form, focus };
}
