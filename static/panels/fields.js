/**
 * Fields of properties: a label, what is typed, its bounds and its fault beside it, at once.
 * A change is handed on only when it can be.
 */

/** @import { Child } from "./html.js" */

import { HOW_TO_TYPE, lengthText, parseLength } from "../plan/measures.js";
import { h } from "./html.js";

let made = 0;

/**
 * @typedef {Object} Field
 * @property {string} key
 * @property {string} label
 * @property {"length" | "number" | "text" | "choice" | "flag" | "long"} type
 * @property {unknown} value
 * @property {number} [low]
 * @property {number} [high]
 * @property {string} [usual] what holds where the field is empty: then null may be given
 * @property {[string, string][]} [choices] value and words
 * @property {string} [unit]
 * @property {string} [words] a line of help
 * @property {boolean} [whole] whole numbers only
 * @property {number} [most] letters
 * @property {(value: any) => string | null} [why] a further fault of a value
 */

/**
 * @param {Field} field @param {"imperial" | "metric"} units @param {(value: any) => void} change
 * @returns {HTMLElement}
 */
export function fieldOf(field, units, change) {
  const id = `field-${++made}`;
  const fault = h("p", { class: "fault", id: `${id}-fault`, hidden: true });
  const control = controlOf(field, id, units);
  control.setAttribute("data-key", field.key);
  control.setAttribute("aria-describedby", `${id}-fault`);
  const judge = () => {
    const read = readValue(field, control, units);
    fault.textContent = read.fault ?? "";
    fault.hidden = !read.fault;
    control.toggleAttribute("aria-invalid", Boolean(read.fault));
    if (read.fault) control.setAttribute("aria-invalid", "true");
    return read;
  };
  const give = () => {
    const read = judge();
    if (read.fault || same(read.value, field.value)) return;
    field.value = read.value; // a field that is taken off the page while it has the focus gives its change twice
    change(read.value);
  };
  control.addEventListener("input", judge);
  control.addEventListener("change", give);
  control.addEventListener("keydown", (event) => {
    if (event instanceof KeyboardEvent && event.key === "Enter" && field.type !== "long") give();
  });
  const label = h("label", { for: id }, field.label, field.unit ? h("small", {}, ` ${field.unit}`) : null);
  if (field.type === "flag") return h("div", { class: "field is-flag" }, control, label, fault);
  return h("div", { class: `field is-${field.type}` }, label, control, field.words ? h("p", { class: "quiet" }, field.words) : null, fault);
}

/** @param {unknown} one @param {unknown} two */
function same(one, two) {
  if (typeof one === "number" && typeof two === "number") return Math.abs(one - two) < 1e-5;
  return (one ?? null) === (two ?? null);
}

/** @param {Field} field @param {string} id @param {"imperial" | "metric"} units */
function controlOf(field, id, units) {
  const { value } = field;
  switch (field.type) {
    case "choice": {
      const list = field.choices ?? [];
      return h("select", { id }, ...list.map(([given, words]) => h("option", { value: given, selected: given === String(value ?? "") }, words)));
    }
    case "flag": return h("input", { id, type: "checkbox", checked: value === true });
    case "long": {
      const area = h("textarea", { id, rows: 2, maxlength: field.most ?? 2000 });
      area.value = String(value ?? "");
      return area;
    }
    case "length": return h("input", { id, autocomplete: "off", spellcheck: "false", placeholder: field.usual ?? "", value: typeof value === "number" ? lengthText(value, units) : "" });
    case "number": return h("input", { id, inputmode: "decimal", autocomplete: "off", placeholder: field.usual ?? "", value: typeof value === "number" ? String(Math.round(value * 1e4) / 1e4) : "" });
    default: return h("input", { id, autocomplete: "off", placeholder: field.usual ?? "", maxlength: field.most ?? 120, value: String(value ?? "") });
  }
}

/**
 * @param {Field} field @param {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} control @param {"imperial" | "metric"} units
 * @returns {{value: unknown, fault: string | null}}
 */
function readValue(field, control, units) {
  if (control instanceof HTMLInputElement && control.type === "checkbox") return { value: control.checked, fault: null };
  const text = control.value.trim();
  if (field.type === "choice" || field.type === "text" || field.type === "long") return judged(field, text, text);
  if (!text && field.usual !== undefined) return { value: null, fault: null };
  const value = field.type === "length" ? parseLength(text, units) : text === "" ? null : Number(text);
  if (value === null || Number.isNaN(value)) return { value: null, fault: field.type === "length" ? HOW_TO_TYPE : "type a number" };
  if (field.whole && !Number.isInteger(value)) return { value, fault: "type a whole number" };
  const say = (/** @type {number} */ bound) => (field.type === "length" ? lengthText(bound, units) : `${bound}${field.unit ? ` ${field.unit}` : ""}`);
  if (field.low !== undefined && value < field.low - 1e-9) return { value, fault: `at least ${say(field.low)}` };
  if (field.high !== undefined && value > field.high + 1e-9) return { value, fault: `at most ${say(field.high)}` };
  return judged(field, value, text);
}

/** @param {Field} field @param {unknown} value @param {string} text */
function judged(field, value, text) {
  return { value: field.type === "text" || field.type === "long" ? text : value, fault: field.why?.(value) ?? null };
}

/** @param {string} title @param {...Child} children */
export const section = (title, ...children) => h("section", { class: "part" }, h("h3", {}, title), ...children);
