/**
 * The part of the step Handover about templates: one taken over, after a look at what it changes, and a plan's own
 * values kept as one; and the letterhead that is printed.
 */

/** @import { Desk } from "../desk.js" */
/** @import { KeptTemplate } from "../server/templates.js" */

import { unitsOf } from "../plan/lookup.js";
import { changesOf, stationeryOf, templateOf, withTemplate } from "../plan/template.js";
import { PlanStationery, addTemplate, getTemplates } from "../server/templates.js";
import { labelOf, shown } from "./design_values.js";
import { section } from "./fields.js";
import { h } from "./html.js";

/** @param {Desk} desk */
export function templatesPart(desk) {
  const stationery = new PlanStationery(desk.planId, desk.store, desk.say);
  /** @type {KeptTemplate[]} */
  let kept = [];
  const choice = h("select", { "aria-label": "Template", onchange: () => draw() });
  const changes = h("div", { class: "template-changes", "aria-live": "polite" });
  const take = h("button", { type: "button", onclick: () => takeOver() }, "Take it over");
  const name = h("input", { "aria-label": "Name of the new template", placeholder: "Name of the template", maxlength: 120, autocomplete: "off" });
  const fault = h("p", { class: "fault", role: "alert" });
  const head = h("p", { class: "letterhead" });

  const chosen = () => kept.find((each) => each.id === choice.value)?.template ?? null;

  function draw() {
    const template = chosen();
    const lines = template ? changesOf(desk.store.plan, stationery.now, template, (key, value) => valueWords(desk, key, value)) : [];
    take.disabled = !lines.length;
    changes.replaceChildren(...(template ? [lines.length ? table(desk, lines) : h("p", { class: "quiet" }, "The plan has all of this already.")] : []));
    const { company, ...others } = stationery.now.letterhead;
    const printed = [others.address, others.phone, others.license && `License ${others.license}`, others.words].filter(Boolean).join(" · ");
    head.replaceChildren(company || printed ? h("span", {}, h("b", {}, company), company && printed ? h("br") : null, printed) : h("span", { class: "quiet" }, "No letterhead is printed yet: a template brings it."));
  }

  async function fetchAll() {
    try {
      await stationery.begin();
      kept = await getTemplates();
    } catch (error) {
      fault.textContent = String(error instanceof Error ? error.message : error);
    }
    choice.replaceChildren(h("option", { value: "" }, kept.length ? "Choose a template…" : "None is kept yet"), ...kept.map(({ id, template }) => h("option", { value: id }, template.usual ? `${template.name} (usual)` : template.name)));
    draw();
  }

  function takeOver() {
    const template = chosen();
    if (!template) return;
    desk.store.commit(`Take over the template ${template.name}`, withTemplate(desk.store.plan, template), stationery.besideWith(stationeryOf(template)));
    desk.say(`The template ${template.name} is taken over; one undo takes it back`);
  }

  async function keep() {
    fault.textContent = "";
    try {
      const made = await addTemplate(templateOf(desk.store.plan, stationery.now, name.value.trim()));
      name.value = "";
      await fetchAll();
      choice.value = made.id;
      draw();
      desk.say(`Kept as the template ${made.template.name}`);
    } catch (error) {
      fault.textContent = String(error instanceof Error ? error.message : error);
    }
  }

  desk.store.listen((topic) => (topic === "plan" || topic === "beside") && draw());
  void fetchAll();
  return section("Templates and letterhead", head,
    h("div", { class: "template-row" }, choice, take), changes,
    h("form", { class: "template-row", onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      void keep();
    } }, name, h("button", {}, "Keep as template")), fault,
    h("p", { class: "quiet" }, "A template holds design values, letterhead, units and how sets are printed. ", h("a", { href: "/templates" }, "Change and remove templates")));
}

/** @param {Desk} desk @param {string} key @param {unknown} value */
function valueWords(desk, key, value) {
  const known = desk.tables.practice.find((each) => each.key === key);
  return known ? shown(known, value ?? known.default, unitsOf(desk.store.plan)) : String(value ?? "");
}

/** @param {Desk} desk @param {import("../plan/template.js").Change[]} lines */
function table(desk, lines) {
  const named = (/** @type {string} */ what) => {
    const known = desk.tables.practice.find((each) => each.key === what);
    return known ? `${known.heading}: ${labelOf(known)}` : what;
  };
  return h("table", { class: "plain" },
    h("thead", {}, h("tr", {}, ...["Changes", "from", "to"].map((word) => h("th", { scope: "col" }, word)))),
    h("tbody", {}, ...lines.map(({ what, from, to }) => h("tr", {}, h("th", { scope: "row" }, named(what)), h("td", {}, from || "none"), h("td", {}, h("b", {}, to || "none"))))));
}
