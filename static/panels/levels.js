/**
 * The levels: their names and heights, adding, copying and removing.
 */

/** @import { Level } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */

import { copyLevel } from "../plan/copying.js";
import { withLevel } from "../plan/edits.js";
import { index, newId, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { fieldOf, section } from "./fields.js";
import { h } from "./html.js";

/** @param {Desk} desk */
export function showLevels(desk) {
  const place = section("Level in view");
  const fields = h("div", { class: "fields" });
  const devices = h("input", { type: "checkbox" });
  place.append(fields, h("div", { class: "buttons" },
    h("button", { type: "button", onclick: () => add(desk) }, "Add a level above"),
    h("button", { type: "button", onclick: () => copy(desk, devices.checked) }, "Copy this level above"),
    h("label", { class: "with-devices" }, devices, " with its devices"),
    h("button", { type: "button", class: "danger", onclick: () => remove(desk) }, "Remove this level")));
  let drawn = "";
  const draw = () => {
    const level = desk.store.committedLevel;
    const key = JSON.stringify([level.id, level.name, level.elevation, level.ceiling, unitsOf(desk.store.plan)]);
    if (key === drawn) return;
    drawn = key;
    const change = (/** @type {string} */ name) => (/** @type {unknown} */ value) =>
      desk.store.commit("Change the level", withLevel(desk.store.plan, desk.store.levelId, (before) => ({ ...before, [name]: value })));
    const units = unitsOf(desk.store.plan);
    fields.replaceChildren(
      fieldOf({ key: "name", label: "Name", type: "text", value: level.name, why: (name) => (name ? null : "give it a name") }, units, change("name")),
      fieldOf({ key: "ceiling", label: "Ceiling height", type: "length", value: level.ceiling ?? 9, low: 1, high: 100 }, units, change("ceiling")),
      fieldOf({ key: "elevation", label: "Floor above datum", type: "length", value: level.elevation ?? 0, low: -1000, high: 1000 }, units, change("elevation")));
  };
  desk.store.listen((topic) => topic !== "draft" && draw());
  draw();
  return place;
}

/** @param {Desk} desk */
function add(desk) {
  const { plan } = desk.store;
  const top = plan.levels.reduce((highest, level) => ((level.elevation ?? 0) > (highest.elevation ?? 0) ? level : highest), /** @type {Level} */ (plan.levels[0]));
  /** @type {Level} */
  const level = { id: newId(plan, "L"), name: `Level ${plan.levels.length + 1}`, elevation: (top.elevation ?? 0) + (top.ceiling ?? 9) + 1, ceiling: top.ceiling ?? 9, walls: [], openings: [], fixtures: [], rooms: [], devices: [] };
  desk.store.commit("Add a level", { ...plan, levels: [...plan.levels, level] });
  desk.store.showLevel(level.id);
  desk.say(`${level.name} added; the level below shows as a ghost`);
}

/** @param {Desk} desk @param {boolean} withDevices */
function copy(desk, withDevices) {
  const level = desk.store.committedLevel;
  const { plan, id } = copyLevel(desk.store.plan, level, withDevices);
  desk.store.commit(`Copy ${level.name}`, plan);
  desk.store.showLevel(id);
  const made = desk.store.level;
  const count = (made.walls ?? []).length + (made.openings ?? []).length + (made.fixtures ?? []).length + (made.rooms ?? []).length + (made.devices ?? []).length;
  desk.say(`${made.name} added with ${count} things, its floor ${lengthText(made.elevation ?? 0, unitsOf(plan))} above datum`);
}

/** @param {Desk} desk */
function remove(desk) {
  const { plan } = desk.store;
  if (plan.levels.length === 1) return desk.say("A plan has at least one level", true);
  const gone = desk.store.committedLevel;
  const lost = new Set((gone.openings ?? []).map((opening) => opening.id));
  const levels = plan.levels.filter((level) => level !== gone).map((level) => ({ ...level, devices: (level.devices ?? []).map((device) => (device.serves?.some((id) => lost.has(id)) ? { ...device, serves: device.serves.filter((id) => !lost.has(id)) } : device)) }));
  const risers = (plan.risers ?? []).filter((riser) => riser.from !== gone.id && riser.to !== gone.id);
  desk.store.commit(`Remove ${gone.name}`, { ...plan, levels, risers }, desk.underlays.besideWithout(gone.id));
  desk.say(`${gone.name} removed with ${[...index(plan).values()].filter((found) => found.level === gone).length} things; undo brings it back`);
}
