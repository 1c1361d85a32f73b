/** The account of a reading: how much was read, what to look at, and every kind of thing that was not read, with why. */

/** @import { Report, UnreadLine } from "./types.js" */

import { h } from "../panels/html.js";
import { lengthText } from "../plan/measures.js";

/** @param {HTMLElement} place @param {Report} report @param {"imperial" | "metric"} units */
export function tellCounts(place, report, units) {
  const counts = Object.entries(report.read).map(([kind, count]) => `${count} ${kind}`).join(", ");
  const [wide, deep] = report.size_ft.map((side) => lengthText(side, units, 1));
  place.textContent = `${counts} · ${wide} × ${deep} over the walls’ centrelines`;
}

/** @param {HTMLElement} list @param {string[]} notes */
export function tellNotes(list, notes) {
  list.replaceChildren(...(notes.length ? notes : ["Nothing that needs a second look."]).map((note) => h("li", {}, note)));
}

/** @param {HTMLElement} body @param {UnreadLine[]} lines */
export function tellUnread(body, lines) {
  const rows = lines.map((line) => h("tr", {},
    h("th", { scope: "row", dir: "auto" }, line.layer), h("td", {}, line.kind), h("td", { class: "count" }, String(line.count)), h("td", {}, line.reason)));
  body.replaceChildren(...(rows.length ? rows : [h("tr", {}, h("td", { colspan: 4 }, "Everything in the file was read."))]));
}
