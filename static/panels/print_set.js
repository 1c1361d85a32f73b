/**
 * The printed set in the step Handover: which set, on which paper, at what scale, by which habit, of which revision;
 * to a page that prints, or to a PDF that tells how far it is and can be stopped.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Print } from "../server/prints.js" */
/** @import { RevisionLine } from "../plan/history_types.js" */

import { unitsOf } from "../plan/lookup.js";
import { call } from "../server/api.js";
import { chosenAs, makePrint } from "../server/prints.js";
import { fieldOf, section } from "./fields.js";
import { h } from "./html.js";

const LATEST = "";

/** @param {Desk} desk @param {HTMLElement} panel the step's place: revisions are looked up when it comes in sight */
export function printSet(desk, panel) {
  const { sets, papers, scales, habits } = desk.tables.sheets;
  const choices = { set: sets[0]?.key ?? "", paper: "", scale: "auto", habit: "", revision: LATEST, underlays: "" };
  const about = h("p", { class: "quiet set-about" });
  const fields = h("div", { class: "fields print-fields" });
  const told = h("p", { class: "quiet", role: "status" });
  const bar = h("progress", { hidden: true, "aria-label": "Sheets drawn" });
  const page = h("a", { class: "button", target: "_blank" }, "Print page");
  const make = h("button", { type: "button", class: "main", onclick: () => run() }, "Make PDF");
  const stop = h("button", { type: "button", hidden: true, onclick: () => running?.abort() }, "Stop");
  const lacking = h("ul", { class: "lacking" });
  /** @type {AbortController | null} */
  let running = null;
  /** @type {RevisionLine[]} */
  let revisions = [];

  /** @param {keyof typeof choices} key @param {string} label @param {[string, string][]} list */
  const choice = (key, label, list) => fieldOf({ key: `print-${key}`, label, type: "choice", value: choices[key], choices: list }, "imperial", (value) => {
    choices[key] = value;
    draw();
  });
  /** @param {{key: string, words: string}[]} table @returns {[string, string][]} */
  const pairs = (table) => table.map(({ key, words }) => [key, words.charAt(0).toUpperCase() + words.slice(1)]);

  const draw = () => {
    const usual = habits.find(({ units }) => units === unitsOf(desk.store.plan));
    const habit = habits.find(({ key }) => key === choices.habit) ?? usual;
    const paper = papers.find(({ key }) => key === habit?.paper);
    about.textContent = sets.find(({ key }) => key === choices.set)?.about ?? "";
    page.href = `/plans/${desk.planId}/sheet?${chosenAs(choices)}`;
    const focus = document.activeElement?.getAttribute("data-key");
    fields.replaceChildren(
      choice("set", "Set", pairs(sets)),
      choice("paper", "Paper", [["", `Usual: ${paper?.words ?? ""}`], ...pairs(papers)]),
      choice("scale", "Scale of plans", [["auto", "Largest that fits"], ...pairs(scales)]),
      choice("habit", "Sheet habit", [["", `Usual: ${usual?.words ?? ""}`], ...pairs(habits)]),
      choice("revision", "Revision", [[LATEST, "As saved now"], ...revisions.map(revisionChoice)]),
      ...(Object.values(desk.underlays.all).some(({ shown }) => shown) ? [choice("underlays", "Pictures under levels", [["", "Not printed"], ["faded", "Printed, faded, beneath the walls"]])] : []));
    if (focus) fields.querySelector(`[data-key="${focus}"]`)?.setAttribute("data-focus", "");
    const again = fields.querySelector("[data-focus]");
    if (again instanceof HTMLElement) again.focus();
  };

  /** @param {Print} print */
  const tell = (print) => {
    told.textContent = print.count ? `Sheet ${Math.min(print.done + 1, print.count)} of ${print.count}: ${print.words}` : "Working out what stands on the sheets…";
    if (!print.count) return bar.removeAttribute("value");
    bar.max = print.count;
    bar.value = print.done;
  };

  const run = async () => {
    running = new AbortController();
    set(true);
    told.textContent = "Saving the plan…";
    lacking.replaceChildren();
    try {
      await Promise.all([desk.autosave.now(), desk.underlays.sending]);
      const print = await makePrint(desk.planId, choices, tell, running.signal);
      if (print.file) save(print.file);
      told.textContent = ending(print);
      lacking.replaceChildren(...print.lacking.map((words) => h("li", {}, words)));
    } catch (trouble) {
      told.textContent = `No PDF: ${trouble instanceof Error ? trouble.message : "something went wrong"}.`;
    } finally {
      running = null;
      set(false);
    }
  };

  /** @param {boolean} busy */
  const set = (busy) => {
    make.disabled = busy;
    stop.hidden = bar.hidden = !busy;
    bar.removeAttribute("value");
    if (busy) stop.focus();
    else make.focus();
  };

  const lookUp = async () => {
    if (panel.hidden) return;
    revisions = await call(`/api/plans/${desk.planId}/revisions`).then((answer) => answer.json()).catch(() => revisions);
    draw();
  };

  new MutationObserver(lookUp).observe(panel, { attributeFilter: ["hidden"] });
  desk.store.listen((topic) => topic === "plan" && !panel.hidden && draw());
  draw();
  const part = section("Printed set", about, fields,
    h("div", { class: "buttons print-buttons" }, page, make, stop), bar, told, lacking,
    h("p", { class: "quiet" }, "Both show the same sheets. Print the page at 100 %, with no margins added by the printer, and the scale is true."));
  part.classList.add("print-set");
  return part;
}

/** @param {RevisionLine} line @returns {[string, string]} */
function revisionChoice(line) {
  const mark = line.mark ? ` ${line.mark}${line.approved ? ", approved" : ""}` : "";
  return [String(line.revision), `${line.revision}${mark} (${new Date(line.saved).toLocaleString([], { dateStyle: "medium", timeStyle: "short" })})`];
}

/** @param {Print} print */
function ending(print) {
  if (print.state === "done") return `${print.count} ${print.count === 1 ? "sheet" : "sheets"} in one PDF, saved by your browser.`;
  return print.state === "stopped" ? "Stopped; no file was made." : `No PDF: ${print.words}.`;
}

/** Hand a file to the browser. @param {string} path */
function save(path) {
  const link = h("a", { href: path, download: true });
  document.body.append(link);
  link.click();
  link.remove();
}
