/**
 * The pulls as a table beside the drawing: totals by cable, filters, sorting; a row leads to its device and back.
 */

/** @import { Pull } from "../../plan/cable_types.js" */
/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { leadTo } from "../../gestures/actions.js";
import { kindOf } from "../../plan/lookup.js";
import { h } from "../html.js";
import { compare, tableTools } from "../table_tools.js";
import { cableLength } from "./words.js";
import { Listened } from "../../plan/listened.js";

const MOST = 300; // rows at once
const HEAD = 34; // px of the table's head, which stays in sight

/** @type {[string, (pull: Pull) => string | number][]} */
const COLUMNS = [
  ["Pull", (pull) => pull.label],
  ["Cable", (pull) => pull.cable],
  ["Room", (pull) => pull.room_name],
  ["Cut", (pull) => pull.cut_ft ?? Infinity],
  ["Box", () => ""],
];
/** @type {[string, string, (pull: Pull) => string][]} what a filter is called, its choice of all, what it looks at */
const FILTERS = [
  ["Cable", "All cables", (pull) => pull.cable],
  ["Level", "All levels", (pull) => pull.level_name],
  ["Room", "All rooms", (pull) => pull.room_name || "no room"],
  ["Can", "All cans", (pull) => pull.can ?? "no can"],
];

/** Tells when other pulls are chosen by a filter. */
export class PullTable extends Listened {
  /** @param {Desk} desk @param {Cable} schedule */
  constructor(desk, schedule) {
    super();
    this.desk = desk;
    this.schedule = schedule;
    this.sortedBy = -1;
    this.falling = false;
    this.filters = FILTERS.map(([name, all]) => h("select", { "aria-label": name, onchange: () => this.#filter() }, h("option", { value: "" }, all)));
    this.body = h("tbody");
    this.count = h("p", { class: "quiet" });
    this.heads = COLUMNS.map(([words], i) => h("th", { scope: "col", class: i < 3 ? null : "amount" }, words === "Box" ? words : h("button", { type: "button", class: "sort", onclick: () => this.#sort(i) }, words)));
    this.totals = h("div", { class: "cable-totals" });
    const table = h("table", { class: "plain pulls" }, h("thead", {}, h("tr", {}, ...this.heads)), this.body);
    this.element = h("section", { "aria-label": "Pulls" },
      h("div", { class: "filters" }, ...this.filters),
      h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Table of pulls" }, table),
      this.count,
      tableTools(table, "Pulls", { sorts: false, rows: () => this.#sorted().map((pull) => [pull.label, pull.cable, pull.room_name, pull.route ? cableLength(this.desk, pull.cut_ft) : "no way to a can", this.#boxes().get(pull.label) ?? ""]) }));
    this.element.hidden = true; // until there are pulls
    schedule.listen(() => this.#answered());
    desk.selection.listen(() => this.#mark(true));
  }

  /** Labels of the pulls that the filters leave, none where no filter is set. @returns {Set<string>} */
  get chosen() {
    return this.filters.some((filter) => filter.value) ? new Set(this.#left().map((pull) => pull.label)) : new Set();
  }

  /** @returns {Pull[]} */
  #left() {
    const all = this.schedule.answer?.pulls ?? [];
    return all.filter((pull) => FILTERS.every(([, , of], i) => !this.filters[i]?.value || of(pull) === this.filters[i]?.value));
  }

  #answered() {
    const pulls = this.schedule.answer?.pulls ?? [];
    FILTERS.forEach(([, all, of], i) => {
      const filter = /** @type {HTMLSelectElement} */ (this.filters[i]);
      const held = filter.value;
      const values = [...new Set(pulls.map(of))];
      filter.replaceChildren(h("option", { value: "" }, all), ...values.map((value) => h("option", { value }, value)));
      filter.value = values.includes(held) ? held : "";
    });
    this.element.hidden = !pulls.length;
    this.totals.replaceChildren(...(pulls.length ? [this.#totals()] : []));
    this.#draw();
  }

  #filter() {
    this.#draw();
    this.tell();
  }

  /** @param {number} column */
  #sort(column) {
    this.falling = this.sortedBy === column && !this.falling;
    this.sortedBy = column;
    this.heads.forEach((head, i) => (i === column ? head.setAttribute("aria-sort", this.falling ? "descending" : "ascending") : head.removeAttribute("aria-sort")));
    this.#draw();
  }

  /** What the filters leave, in the order chosen. */
  #sorted() {
    const left = this.#left();
    const by = COLUMNS[this.sortedBy]?.[1];
    return by ? left.sort((one, two) => compare(String(by(one)), String(by(two))) * (this.falling ? -1 : 1)) : left;
  }

  /** The number of each pull's box, by its label. */
  #boxes() {
    return new Map((this.schedule.answer?.boxes ?? []).flatMap((box) => box.pulls.map((label) => /** @type {[string, string]} */ ([label, box.box.split("#")[1] ?? ""]))));
  }

  #draw() {
    const left = this.#sorted();
    const boxOf = this.#boxes();
    const place = this.body.closest(".scroll");
    const scrolled = place?.scrollTop ?? 0;
    this.body.replaceChildren(...left.slice(0, MOST).map((pull) => this.#row(pull, boxOf.get(pull.label) ?? "—")));
    const all = this.schedule.answer?.pulls.length ?? 0;
    this.count.textContent = left.length > MOST ? `${MOST} of ${left.length} shown: narrow by a filter` : `${left.length} of ${all} pulls`;
    this.#mark(false);
    if (place) place.scrollTop = scrolled;
  }

  /** @param {Pull} pull @param {string} box */
  #row(pull, box) {
    return h("tr", { "data-device": pull.device, class: pull.route ? "" : "unreached" },
      h("th", { scope: "row" }, h("button", { type: "button", class: "link", onclick: () => leadTo(this.desk, pull.device) }, pull.label), h("small", {}, pull.name === pull.label ? kindOf(this.desk.tables, pull.kind).name : pull.name)),
      h("td", {}, pull.cable, pull.carries === "spare" || pull.carries === "not yet chosen" || pull.carries === "power only" ? h("small", {}, pull.carries) : null),
      h("td", {}, pull.room_name || "—"),
      h("td", { class: "amount" }, pull.route ? cableLength(this.desk, pull.cut_ft) : "no way to a can"),
      h("td", { class: "amount" }, box));
  }

  /** @param {boolean} scroll */
  #mark(scroll) {
    const { ids } = this.desk.selection;
    let first = true;
    for (const row of this.body.rows) {
      const chosen = ids.has(row.dataset.device ?? "");
      row.classList.toggle("chosen", chosen);
      if (chosen && first && scroll && row.offsetParent) {
        const place = /** @type {HTMLElement} */ (row.closest(".scroll"));
        const [line, box] = [row.getBoundingClientRect(), place.getBoundingClientRect()];
        if (line.top < box.top + HEAD || line.bottom > box.bottom) place.scrollTop += line.top - box.top - HEAD;
        first = false;
      }
    }
  }

  #totals() {
    const answer = this.schedule.answer;
    const rows = Object.entries(answer?.totals ?? {}).map(([cable, total]) => h("tr", {},
      h("th", { scope: "row" }, cable),
      h("td", { class: "amount" }, String(total.pulls)),
      h("td", { class: "amount" }, cableLength(this.desk, this.#cut(cable))),
      h("td", {}, this.schedule.stored ? "worked out when dropped" : this.#boxWords(cable))));
    return h("table", { class: "plain" }, h("thead", {}, h("tr", {}, ...["Cable", "Pulls", "Cut", "To buy"].map((words, i) => h("th", { scope: "col", class: i === 1 || i === 2 ? "amount" : null }, words)))), h("tbody", {}, ...rows));
  }

  /** Feet to cut of a cable, also while a device is dragged. @param {string} cable */
  #cut(cable) {
    return (this.schedule.answer?.pulls ?? []).reduce((sum, pull) => sum + (pull.cable === cable ? pull.cut_ft ?? 0 : 0), 0);
  }

  /** @param {string} cable */
  #boxWords(cable) {
    /** @type {Map<number, number>} */
    const counts = new Map();
    for (const box of this.schedule.answer?.boxes ?? []) if (box.cable === cable) counts.set(box.size_ft, (counts.get(box.size_ft) ?? 0) + 1);
    return [...counts].map(([size, count]) => `${count} × ${cableLength(this.desk, size)}`).join(" + ") || "—";
  }
}
