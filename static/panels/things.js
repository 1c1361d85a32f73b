/**
 * Everything on the level in a table, so that a keyboard and a screen reader reach what the drawing shows.
 */

/** @import { Point, Riser } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Found } from "../plan/lookup.js" */

import { distance } from "../geometry/points.js";
import { leadTo } from "../gestures/actions.js";
import { FAMILIES, index, kindOf, nameOf, placeOf, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { h } from "./html.js";
import { STATUS_WORDS } from "./status.js";
import { tableTools } from "./table_tools.js";

const MOST = 400; // rows at once
/** @type {Record<string, string>} */
const FAMILY_WORDS = { "": "All things", devices: "Devices", openings: "Openings", walls: "Walls", rooms: "Rooms", fixtures: "Fixtures", risers: "Risers" };

/** @param {Desk} desk @param {HTMLDetailsElement} place */
export function showThings(desk, place) {
  const body = h("tbody");
  const count = h("p", { class: "quiet" });
  const family = h("select", { "aria-label": "Kind of thing", onchange: () => draw() }, ...Object.entries(FAMILY_WORDS).map(([value, words]) => h("option", { value }, words)));
  const table = h("table", { class: "plain things-table" },
    h("thead", {}, h("tr", {}, ...["Thing", "Where", "State"].map((words) => h("th", { scope: "col" }, words)))), body);
  const chosen = () => {
    const { plan, levelId } = desk.store;
    const found = [...index(plan).values()].filter((entry) => entry.level.id === levelId && (!family.value || entry.family === family.value));
    return found.sort((one, two) => FAMILIES.indexOf(two.family) - FAMILIES.indexOf(one.family));
  };
  const tools = tableTools(table, "Things on the level", { rows: () => [
    ...chosen().map((entry) => [nameOf(entry, desk.tables), where(desk, entry), state(desk, entry)]),
    ...risersHere(desk, family.value).map((riser) => [`Riser ${riser.id}`, at(desk, riser.at), riserWords(desk, riser)])] });
  place.append(family, h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Things on the level" }, table), count, tools);
  const draw = () => {
    if (!place.open) return;
    const found = chosen();
    const risers = risersHere(desk, family.value);
    body.replaceChildren(...found.slice(0, MOST).map((entry) => row(desk, entry)), ...risers.map((riser) => riserRow(desk, riser)));
    const all = found.length + risers.length;
    count.textContent = found.length > MOST ? `${MOST} of ${all} shown: choose a kind, or download all` : `${all} ${all === 1 ? "thing" : "things"}`;
  };
  const mark = () => {
    for (const line of body.rows) line.classList.toggle("chosen", desk.selection.ids.has(line.dataset.thing ?? ""));
  };
  place.addEventListener("toggle", draw);
  desk.store.listen((topic) => topic !== "draft" && draw());
  desk.proof.listen((topic) => topic === "answer" && !desk.proof.tried && draw());
  desk.selection.listen(mark);
  draw();
}

/** @param {Desk} desk @param {Found} found */
function row(desk, found) {
  const { id } = found.thing;
  return h("tr", { "data-thing": id, class: desk.selection.ids.has(id) ? "chosen" : "" },
    h("th", { scope: "row" }, h("button", { type: "button", class: "link", onclick: (/** @type {MouseEvent} */ event) => choose(desk, id, event) }, nameOf(found, desk.tables))),
    h("td", {}, where(desk, found)),
    h("td", {}, state(desk, found)));
}

/** @param {Desk} desk @param {string} id @param {MouseEvent} event */
function choose(desk, id, event) {
  if (event.shiftKey || event.ctrlKey || event.metaKey) return desk.selection.toggle(id);
  leadTo(desk, id);
  desk.drawing.board.focus({ preventScroll: true });
}

/** @param {Desk} desk @param {Found} found */
function where(desk, found) {
  const units = unitsOf(desk.store.plan);
  if (found.family === "walls") return `${lengthText(distance(found.thing.a, found.thing.b), units)} long`;
  if (found.family === "openings") return `${found.thing.wall}, ${lengthText(found.thing.offset, units)} from its start`;
  return at(desk, placeOf(found));
}

/** @param {Desk} desk @param {Point} place */
function at(desk, [x, y]) {
  const units = unitsOf(desk.store.plan);
  return `${lengthText(x, units, 2)} E, ${lengthText(y, units, 2)} N`;
}

/** Risers that reach the level in view, where the kind asked for has them. @param {Desk} desk @param {string} family */
const risersHere = (desk, family) => (family && family !== "risers" ? [] : (desk.store.plan.risers ?? []).filter((riser) => [riser.from, riser.to].includes(desk.store.levelId)));

/** @param {Desk} desk @param {Riser} riser */
const riserWords = (desk, riser) => [riser.from, riser.to].map((id) => desk.store.plan.levels.find((level) => level.id === id)?.name ?? id).join(" to ");

/** @param {Desk} desk @param {Riser} riser */
function riserRow(desk, riser) {
  return h("tr", {},
    h("th", { scope: "row" }, h("button", { type: "button", class: "link", onclick: () => desk.view.centre(riser.at, 12) }, `Riser ${riser.id}`)),
    h("td", {}, at(desk, riser.at)), h("td", {}, riserWords(desk, riser)));
}

/** @param {Desk} desk @param {Found} found */
function state(desk, found) {
  if (found.family === "openings") {
    const panes = desk.proof.panes.filter((pane) => pane.opening === found.thing.id);
    return [...new Set(panes.map((pane) => STATUS_WORDS[pane.status]))].join(", ");
  }
  if (found.family === "devices") {
    const { id, kind } = found.thing;
    const own = desk.proof.panes.filter((pane) => (pane.fractions[id] ?? 0) > 0.0005).length;
    return kind === "glass_break" ? `hears ${own} panes` : kindOf(desk.tables, kind).name;
  }
  return "";
}
