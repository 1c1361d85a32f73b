/** The drawings on one sheet: which is which level, what it is called, and a point that the storeys share. */

/** @import { Drawing } from "./types.js" */

import { h } from "../panels/html.js";
import { lengthText } from "../plan/measures.js";

/** @typedef {{drawing: Drawing, level: HTMLSelectElement, name: HTMLInputElement, point: HTMLInputElement, pick: HTMLButtonElement}} Row */

/** The table of drawings; it is shown where a sheet has more than one. */
export class DrawingsTable {
  /**
   * @param {HTMLElement} section @param {HTMLElement} body
   * @param {{changed: () => void, pick: (drawing: Drawing) => void}} told
   */
  constructor(section, body, told) {
    this.section = section;
    this.body = body;
    this.told = told;
    /** @type {Row[]} */
    this.rows = [];
    this.isEdited = false;
  }

  /** @param {Drawing[]} drawings @returns {boolean} whether the same drawings stand in the table already */
  holds(drawings) {
    const boxes = (/** @type {Drawing[]} */ list) => JSON.stringify(list.map((one) => one.box.map((value) => value.toPrecision(6))));
    return boxes(drawings) === boxes(this.rows.map((row) => row.drawing));
  }

  /** @param {Drawing[]} drawings */
  fill(drawings) {
    this.isEdited = false;
    this.section.hidden = drawings.length < 2;
    const changed = () => {
      this.isEdited = true;
      this.settle();
      this.told.changed();
    };
    this.rows = drawings.map((drawing) => {
      const level = h("select", { id: `drawing-${drawing.number}`, onchange: changed },
        h("option", { value: "" }, "Left out"),
        ...drawings.map((_, index) => h("option", { value: String(index) }, index ? `Level ${index + 1}` : "Lowest level")));
      level.value = drawing.level === null ? "" : String(drawing.level);
      const name = h("input", { value: drawing.name, maxlength: 120, autocomplete: "off", oninput: changed, "aria-label": `Name of the level of drawing ${drawing.number}` });
      const point = h("input", { autocomplete: "off", placeholder: "x, y", oninput: changed, "aria-label": `Shared point in drawing ${drawing.number}, in the file’s unit` });
      const pick = h("button", { type: "button", onclick: () => this.told.pick(drawing) }, "Pick");
      pick.setAttribute("aria-label", `Pick the shared point of drawing ${drawing.number} in the picture`);
      return { drawing, level, name, point, pick };
    });
    this.body.replaceChildren(...this.rows.map(({ drawing, level, name, point, pick }) => {
      const [wide, deep] = drawing.size_ft.map((side) => lengthText(side, "imperial", 1));
      return h("tr", {},
        h("th", { scope: "row" }, h("label", { for: level.id }, h("b", {}, String(drawing.number)), " ", h("bdi", {}, drawing.title || "no title")),
          h("span", { class: "quiet" }, `${wide} × ${deep}${drawing.why ? `; ${drawing.why}` : ""}`)),
        h("td", { "data-head": "Is" }, level), h("td", { "data-head": "Called" }, name), h("td", { "data-head": "Shared point" }, h("span", { class: "point" }, point, pick)));
    }));
    this.settle();
  }

  /** A level is named once: by the first of its drawings. */
  settle() {
    const named = new Set();
    for (const { level, name, point, pick } of this.rows) {
      name.disabled = level.value === "" || named.has(level.value);
      point.disabled = pick.disabled = level.value === "";
      named.add(level.value);
    }
  }

  /** @param {Drawing} drawing @param {[number, number]} spot in the drawing's unit */
  setPoint(drawing, spot) {
    const row = this.rows.find((one) => one.drawing.number === drawing.number);
    if (!row) return;
    row.point.value = spot.map((value) => Number(value.toPrecision(8))).join(", ");
    this.isEdited = true;
    this.told.changed();
  }

  /** @returns {{drawing: Drawing, spot: [number, number]}[]} the points that can be read */
  points() {
    return this.rows.flatMap(({ drawing, level, point }) => {
      const parts = point.value.split(/[,;\s]+/).filter(Boolean).map(Number);
      return level.value !== "" && parts.length === 2 && parts.every(Number.isFinite) ? [{ drawing, spot: /** @type {[number, number]} */ (parts) }] : [];
    });
  }

  /** @param {URLSearchParams} said gets the levels, the lowest first, and the shared points */
  tell(said) {
    if (this.rows.length < 2) return;
    /** @type {Map<number, Row[]>} */
    const levels = new Map();
    for (const row of this.rows) {
      if (row.level.value !== "") levels.set(Number(row.level.value), [...(levels.get(Number(row.level.value)) ?? []), row]);
    }
    for (const [, rows] of [...levels].sort(([one], [two]) => one - two)) {
      const name = rows[0].name.value.trim();
      said.append("level", rows.map((row) => row.drawing.number).join("+") + (name ? `:${name}` : ""));
    }
    for (const { drawing, spot } of this.points()) said.append("common", `${drawing.number}:${spot.join(",")}`);
  }

  /** @returns {string} what cannot be read, or nothing */
  fault() {
    const told = this.points().length;
    const typed = this.rows.filter((row) => row.level.value !== "" && row.point.value.trim());
    if (typed.length !== told) return "A shared point is two numbers in the file’s unit, such as 1250, 300.";
    if (this.rows.length > 1 && this.rows.every((row) => row.level.value === "")) return "Take at least one drawing as a level.";
    return "";
  }
}
