/**
 * What every table of the page can do: be sorted by any column, copied as tab-separated text, downloaded as CSV.
 * Rows that are drawn anew fall into the order that was chosen.
 */

import { h } from "./html.js";

/** @type {Map<string, {column: number, falling: boolean}>} the order chosen for a table, by its name */
const orders = new Map();

/**
 * Give a table its sorting heads; the tools to stand under it come back.
 * @param {HTMLTableElement} table @param {string} name
 * @param {{rows?: () => string[][], sorts?: boolean}} [own] rows: all of them, where the table shows only some; sorts: false where it sorts itself
 */
export function tableTools(table, name, { rows, sorts = true } = {}) {
  if (sorts) sortable(table, name);
  const heads = () => [...(table.tHead?.rows[0]?.cells ?? [])].map(textOf);
  const all = () => [heads(), ...(rows?.() ?? [...(table.tBodies[0]?.rows ?? [])].map((row) => [...row.cells].map(textOf)))];
  return copyTools(name, all);
}

/** Buttons that copy and download rows. @param {string} name @param {() => string[][]} rows with their heads */
export function copyTools(name, rows) {
  const told = h("span", { class: "quiet", role: "status" });
  const copy = async () => {
    const text = rows().map((row) => row.map((cell) => cell.replace(/[\t\r\n]+/g, " ")).join("\t")).join("\n");
    told.textContent = (await copied(text)) ? `${rows().length - 1} rows copied` : "The browser does not let a page copy here: download instead";
  };
  const download = () => {
    const text = rows().map((row) => row.map(csvCell).join(",")).join("\r\n");
    const address = URL.createObjectURL(new Blob(["\ufeff", text, "\r\n"], { type: "text/csv" }));
    h("a", { href: address, download: `${name.toLowerCase().replace(/[^a-z0-9]+/g, "-")}.csv` }).click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
    told.textContent = `${rows().length - 1} rows downloaded`;
  };
  return h("p", { class: "table-tools" },
    h("button", { type: "button", "aria-label": `Copy the table ${name}`, onclick: copy }, "Copy"),
    h("button", { type: "button", "aria-label": `Download the table ${name} as CSV`, onclick: download }, "CSV"), told);
}

/** @param {HTMLTableElement} table @param {string} name */
function sortable(table, name) {
  const heads = [...(table.tHead?.rows[0]?.cells ?? [])].filter((cell) => cell.tagName === "TH" && textOf(cell));
  const body = table.tBodies[0];
  if (!body) return;
  const sort = () => {
    const order = orders.get(name);
    for (const head of heads) {
      if (order?.column === head.cellIndex) head.setAttribute("aria-sort", order.falling ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
    if (!order) return;
    const rows = [...body.rows];
    const sorted = rows.slice().sort((one, two) => compare(valueOf(one, order.column), valueOf(two, order.column)) * (order.falling ? -1 : 1));
    if (sorted.some((row, i) => row !== rows[i])) body.append(...sorted);
    seen.takeRecords();
  };
  const seen = new MutationObserver(sort);
  for (const head of heads) {
    const words = textOf(head);
    head.replaceChildren(h("button", { type: "button", class: "sort", onclick: () => {
      const before = orders.get(name);
      orders.set(name, { column: head.cellIndex, falling: before?.column === head.cellIndex && !before.falling });
      sort();
    } }, words));
  }
  seen.observe(body, { childList: true });
  sort();
}

/** @param {HTMLTableRowElement} row @param {number} column */
const valueOf = (row, column) => {
  const cell = row.cells[column];
  return cell?.dataset.value ?? (cell ? textOf(cell) : "");
};

/** @param {string} one @param {string} two */
export function compare(one, two) {
  const numbers = [one, two].map((text) => (text.trim() === "" ? NaN : Number(text)));
  const [first = NaN, second = NaN] = numbers;
  if (!Number.isNaN(first) && !Number.isNaN(second)) return first === second ? 0 : first - second;
  return one.localeCompare(two, "en", { numeric: true });
}

/** A cell's words, its parts told apart by spaces. @param {HTMLElement} cell @returns {string} */
const textOf = (cell) => [...cell.childNodes].map((part) => (part instanceof HTMLSelectElement ? part.selectedOptions[0]?.text : part.textContent) ?? "").map((part) => part.trim()).filter(Boolean).join(" ");

/** RFC 4180; a text that a spreadsheet would take for a formula stays a text. @param {string} text */
export function csvCell(text) {
  const safe = /^[=+\-@\t]/.test(text) && Number.isNaN(Number(text)) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** @param {string} text @returns {Promise<boolean>} */
async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copiedBySelection(text); // a page that is not served securely, as on a phone on site
  }
}

/** @param {string} text */
function copiedBySelection(text) {
  const area = h("textarea", { class: "only-read", "aria-hidden": "true", tabindex: "-1" });
  const held = document.activeElement;
  area.value = text;
  document.body.append(area);
  area.select();
  const done = document.execCommand("copy");
  area.remove();
  if (held instanceof HTMLElement) held.focus({ preventScroll: true });
  return done;
}
