/**
 * Files for other programs in the step Handover: tables, plans as SVG and DXF, and the page to share, which asks first.
 */

/** @import { Desk } from "../desk.js" */

import { saveFile } from "../server/files.js";
import { fieldOf, section } from "./fields.js";
import { h } from "./html.js";
import { shareQuestion } from "./share_question.js";

/** @type {[string, string][]} */
const SHOWS = [["proof", "Proof"], ["devices", "Devices"], ["cable", "Cable"]];

/** @param {Desk} desk @returns {HTMLElement[]} */
export function handoverFiles(desk) {
  const choices = { level: "", shows: "proof" };
  const fields = h("div", { class: "fields" });
  const told = h("p", { class: "quiet told-file", role: "status" });
  const shared = h("p", { class: "quiet told-file", role: "status" });
  const dialog = shareQuestion(desk, (left) => run(`share.html?${new URLSearchParams([["confirm", "yes"], ...left.map((key) => ["leave_out", key])])}`, shared));
  /** @type {HTMLButtonElement[]} */
  const buttons = [];

  /** @param {string} words @param {string} title @param {() => void} act */
  const button = (words, title, act) => {
    const made = h("button", { type: "button", title, onclick: act }, words);
    buttons.push(made);
    return made;
  };

  /** @param {string} path @param {HTMLElement} place where it is told how it went */
  const run = async (path, place) => {
    const focused = document.activeElement;
    for (const one of buttons) one.disabled = true;
    place.textContent = "Making the file…";
    try {
      await desk.autosave.now();
      const { name, size } = await saveFile(`/api/plans/${desk.planId}/${path}`);
      place.textContent = `${name} (${bytesText(size)}) was handed to your browser to save.`;
    } catch (trouble) {
      place.textContent = `No file: ${trouble instanceof Error ? trouble.message : "something went wrong"}.`;
    } finally {
      for (const one of buttons) one.disabled = false;
      if (focused instanceof HTMLElement && document.activeElement === document.body) focused.focus();
    }
  };

  let drawn = "";
  const draw = () => {
    const { levels } = desk.store.plan;
    if (!levels.some(({ id }) => id === choices.level)) choices.level = levels[0]?.id ?? "";
    const key = JSON.stringify(levels.map(({ id, name }) => [id, name]));
    if (key === drawn) return;
    drawn = key;
    fields.replaceChildren(
      fieldOf({ key: "file-level", label: "Level", type: "choice", value: choices.level, choices: levels.map(({ id, name }) => [id, name]) }, "imperial", (value) => (choices.level = value)),
      fieldOf({ key: "file-shows", label: "SVG shows", type: "choice", value: choices.shows, choices: SHOWS }, "imperial", (value) => (choices.shows = value)));
  };
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();

  const level = () => encodeURIComponent(choices.level);
  const files = section("Files for other programs",
    h("h4", {}, "Every table"),
    h("p", { class: "quiet" }, "Panes, rooms, devices, openings, pulls, boxes, zones, power, rough-in, ways in, sound, and the practice with its sources. Numbers are numbers, in the plan's units."),
    h("div", { class: "buttons" },
      button("Workbook (XLSX)", "A sheet a table", () => run("tables.xlsx", told)),
      button("CSV files (ZIP)", "A file a table", () => run("tables.zip", told))),
    h("h4", {}, "Drawing at real size"),
    h("p", { class: "quiet" }, "Layers by discipline and status; doors, windows and devices as blocks with their attributes; a layout for each level at a stated scale."),
    h("div", { class: "buttons" }, button("All levels (DXF)", "Levels side by side, the first at the plan's own coordinates", () => run("plan.dxf", told))),
    h("h4", {}, "One level"),
    fields,
    h("div", { class: "buttons" },
      button("Plan at true scale (SVG)", "With legend, scale bar and north", () => run(`levels/${level()}/plan.svg?shows=${choices.shows}`, told)),
      button("This level (DXF)", "At the plan's own coordinates", () => run(`plan.dxf?level=${level()}`, told))),
    told);
  const share = section("Share on site",
    h("p", { class: "quiet" }, "One page with plans, proof and tables that a phone shows without a network. Nobody can change the plan with it."),
    h("div", { class: "buttons" }, button("Make a page to share…", "Asks first what it may show", () => dialog.ask())),
    shared, dialog.element);
  files.classList.add("handover-files");
  share.classList.add("handover-files");
  return [files, share];
}

/** @param {number} size */
function bytesText(size) {
  return size < 1e6 ? `${Math.max(1, Math.round(size / 1000))} kB` : `${(size / 1e6).toFixed(1)} MB`;
}
