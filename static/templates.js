/**
 * The page of practice templates: each opened to be changed, made the usual one, removed; a new one made.
 */

/** @import { Field } from "./panels/fields.js" */
/** @import { Letterhead, PrintHabit, Template } from "./plan/template.js" */
/** @import { DesignValue, Tables } from "./plan/types.js" */
/** @import { KeptTemplate } from "./server/templates.js" */

import { asField, labelOf, readGiven } from "./panels/design_values.js";
import { fieldOf } from "./panels/fields.js";
import { byId, h } from "./panels/html.js";
import { BARE, LETTERHEAD_WORDS, NO_HABIT } from "./plan/template.js";
import { getTables } from "./server/api.js";
import { addTemplate, deleteTemplate, getTemplates, putTemplate } from "./server/templates.js";

/** @param {string} words */
const tell = (words) => (byId("told", HTMLElement).textContent = words);
/** @param {unknown} error */
const wordsOf = (error) => (error instanceof Error ? error.message : String(error));

/** @param {Tables} tables @param {string} [open] the template to be shown opened */
async function showAll(tables, open) {
  const kept = await getTemplates();
  byId("templates", HTMLElement).replaceChildren(...(kept.length ? kept.map((each) => h("li", {}, card(tables, each, each.id === open))) : [h("li", { class: "quiet" }, "None yet. Make one here, or keep the values of an open plan as one, in its step Handover.")]));
}

/** @param {Tables} tables @param {KeptTemplate} kept @param {boolean} open */
function card(tables, kept, open) {
  /** @type {Template} what is being changed */
  let template = kept.template;
  const parts = h("div", { class: "template-parts" });
  const wrong = h("p", { class: "wrong", role: "alert" });
  const save = h("button", { type: "button", class: "main", disabled: true, onclick: () => void keep(template, `${template.name} is saved.`) }, "Save");

  /** @param {Partial<Template>} change */
  const set = (change) => {
    template = { ...template, ...change };
    save.disabled = false;
  };

  /** @param {Template} next @param {string} done */
  async function keep(next, done) {
    wrong.textContent = "";
    try {
      await putTemplate(kept, next);
      await showAll(tables, kept.id);
      tell(done);
    } catch (error) {
      wrong.textContent = wordsOf(error);
    }
  }

  async function remove() {
    if (!confirm(`Remove the template ${kept.template.name}? Plans keep what they took from it.`)) return;
    try {
      await deleteTemplate(kept);
      await showAll(tables);
      tell(`${kept.template.name} is removed.`);
    } catch (error) {
      wrong.textContent = wordsOf(error);
    }
  }

  const count = Object.keys(template.practice).length;
  const says = [template.letterhead.company, `${count} design value${count === 1 ? "" : "s"}`].filter(Boolean).join(" · ");
  parts.append(
    part("Name and units", fields([
      [{ key: "name", label: "Name", type: "text", value: template.name, most: 120, why: (name) => (name ? null : "give it a name") }, (name) => set({ name })],
      [{ key: "units", label: "Lengths in", type: "choice", value: template.units ?? "", choices: [["", "as the plan has them"], ["imperial", "feet and inches"], ["metric", "metres"]] }, (units) => set({ units: units || null })],
    ])),
    part("Letterhead, printed on every sheet", fields(/** @type {(keyof Letterhead)[]} */ (Object.keys(LETTERHEAD_WORDS)).map((key) => [
      { key, label: LETTERHEAD_WORDS[key], type: "text", value: template.letterhead[key], most: 120 }, (value) => set({ letterhead: { ...template.letterhead, [key]: value } })]))),
    part("Printed, unless asked otherwise", fields(/** @type {[keyof PrintHabit, string, {key: string, words: string}[]][]} */ ([["set", "Set", tables.sheets.sets], ["paper", "Paper", tables.sheets.papers], ["scale", "Scale", tables.sheets.scales]]).map(([key, label, list]) => [
      { key, label, type: "choice", value: template.habit[key], choices: [["", "the usual"], ...list.map((each) => /** @type {[string, string]} */ ([each.key, each.words]))] }, (value) => set({ habit: { ...template.habit, [key]: value } })]))),
    practicePart(tables, () => template, set),
    wrong,
    h("p", { class: "template-doing" }, save,
      template.usual ? h("button", { type: "button", onclick: () => void keep({ ...template, usual: false }, "No template is the usual one now.") }, "No longer the usual one") : h("button", { type: "button", onclick: () => void keep({ ...template, usual: true }, `New plans are offered ${template.name} first.`) }, "Make it the usual one"),
      h("button", { type: "button", class: "remove", onclick: () => void remove() }, "Remove")));
  return h("details", { class: "template", open, "data-template": kept.id }, h("summary", {}, h("strong", {}, template.name), template.usual ? h("span", { class: "usual" }, "usual") : null, h("span", { class: "quiet" }, says)), parts);
}

/** @param {string} title @param {...(Node | null)} inside */
const part = (title, ...inside) => h("section", {}, h("h3", {}, title), ...inside);

/** @param {[Field, (value: any) => void][]} list */
const fields = (list) => h("div", { class: "fields" }, ...list.map(([field, change]) => fieldOf(field, "imperial", change)));

/** The design values that a template sets, and one more to be set. @param {Tables} tables @param {() => Template} now @param {(change: Partial<Template>) => void} set */
function practicePart(tables, now, set) {
  const place = h("div", { class: "fields" });
  const more = h("select", { "aria-label": "Another design value", onchange: () => add() });
  const units = () => now().units ?? "imperial";

  function add() {
    const value = tables.practice.find((each) => each.key === more.value);
    if (!value) return;
    set({ practice: { ...now().practice, [value.key]: value.default } });
    draw();
    /** @type {HTMLElement | null} */ (place.querySelector(`[data-key="${CSS.escape(value.key)}"]`))?.focus();
  }

  /** @param {DesignValue} value */
  function row(value) {
    const field = fieldOf({ ...asField(value, now().practice[value.key], units()), label: `${value.heading.replaceAll("_", " ")}: ${labelOf(value)}` }, units(), (given) => set({ practice: { ...now().practice, [value.key]: readGiven(value, given, units()) ?? value.default } }));
    return h("div", { class: "design-value" }, field, h("button", { type: "button", "aria-label": `Take ${labelOf(value)} out`, onclick: () => {
      const { [value.key]: _, ...practice } = now().practice;
      set({ practice });
      draw();
    } }, "Take out"));
  }

  function draw() {
    const { practice } = now();
    place.replaceChildren(...tables.practice.filter((value) => value.key in practice).map(row));
    const headings = [...new Set(tables.practice.map((value) => value.heading))];
    more.replaceChildren(h("option", { value: "" }, "Set another design value…"), ...headings.map((heading) =>
      h("optgroup", { label: heading.replaceAll("_", " ") }, ...tables.practice.filter((value) => value.heading === heading && !(value.key in practice)).map((value) => h("option", { value: value.key }, labelOf(value))))));
  }

  draw();
  return part("Design values", place, h("p", { class: "field" }, more));
}

async function start() {
  const tables = await getTables();
  await showAll(tables);
  const form = byId("new-template", HTMLFormElement);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const name = String(new FormData(form).get("name") ?? "").trim();
    try {
      const made = await addTemplate({ name, units: null, practice: {}, letterhead: BARE, habit: NO_HABIT, usual: false });
      form.reset();
      await showAll(tables, made.id);
      tell(`${name} is made: fill it in, then save.`);
    } catch (error) {
      tell(wordsOf(error));
    }
  });
}

start().catch((error) => tell(wordsOf(error)));
