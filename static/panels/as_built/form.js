/**
 * The form of one device as built: each field beside the design's value, what is typed kept until it is recorded.
 */

/** @import { BuiltEntry, BuiltLine } from "../../plan/history_types.js" */
/** @import { Point } from "../../plan/types.js" */
/** @import { AsBuilt } from "../../server/as_built.js" */
/** @import { Desk } from "../../desk.js" */

import { unitsOf } from "../../plan/lookup.js";
import { FEET_PER_METRE, HOW_TO_TYPE, lengthText, parseLength } from "../../plan/measures.js";
import { h } from "../html.js";
import { today } from "../revisions/words.js";

let lastName = "";

/** @param {Desk} desk @param {AsBuilt} built @param {BuiltLine} line @param {() => void} close */
export function builtForm(desk, built, line, close) {
  const units = unitsOf(desk.store.plan);
  const asked = fieldsOf(line, units);
  const entry = built.entryOf(line.device);
  const start = built.kept(line.device) ?? typedOf(entry, line, units);
  const inputs = new Map(asked.map((field) => [field.key, h(field.key === "note" ? "textarea" : "input", {
    name: field.key, type: field.key === "note" ? null : field.type ?? "text", maxlength: field.most ?? 120, autocomplete: "off",
    placeholder: field.usual ?? "", rows: field.key === "note" ? 2 : null, inputmode: field.key === "cable" ? "decimal" : null,
  })]));
  for (const [key, input] of inputs) input.value = start[key] ?? "";
  const designed = h("input", { type: "checkbox", name: "as_designed" });
  designed.checked = start["as_designed"] === "yes";
  const fault = h("p", { class: "fault", role: "alert" });
  /** @returns {Record<string, string>} */
  const typed = () => ({ ...Object.fromEntries([...inputs].map(([key, input]) => [key, input.value.trim()])), as_designed: designed.checked ? "yes" : "" });
  const save = async () => {
    fault.textContent = "";
    try {
      const said = typed();
      lastName = said["by"] ?? "";
      await built.record([entryFrom(line, said, units)]);
      desk.say(`${line.name} is recorded as built`);
      close();
    } catch (error) {
      fault.textContent = `Not recorded: ${error instanceof Error ? error.message : error}. What you typed is kept here.`;
    }
  };
  const takeOut = async () => {
    try {
      await built.record([], [line.device]);
      built.keep(line.device, null);
      close();
    } catch (error) {
      fault.textContent = `Not taken out: ${error instanceof Error ? error.message : error}.`;
    }
  };
  const form = h("form", {
    class: "ask-form", "aria-label": `${line.name} as built`,
    onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      save();
    },
    oninput: () => built.keep(line.device, typed()),
    onkeydown: (/** @type {KeyboardEvent} */ event) => event.key === "Escape" && (event.stopPropagation(), close()),
  },
  h("label", { class: "flag" }, designed, "Looked at: as designed but for what is typed here"),
  h("div", { class: "two" }, ...asked.filter((field) => field.key !== "note").map((field) => h("label", {}, h("span", {}, field.label, field.was ? h("small", {}, ` design: ${field.was}`) : null), inputs.get(field.key) ?? null))),
  h("label", {}, "Note", inputs.get("note") ?? null),
  fault,
  h("div", { class: "buttons" }, h("button", { type: "submit", class: "main" }, "Record"), h("button", { type: "button", onclick: () => {
    built.keep(line.device, null);
    close();
  } }, "Cancel"), entry && h("button", { type: "button", class: "danger", onclick: takeOut }, "Take the entry out")));
  return { form, focus: () => designed.focus() };
}

/** @typedef {{key: string, label: string, was?: string, type?: string, most?: number, usual?: string}} Asked */

/** @param {BuiltLine} line @param {"imperial" | "metric"} units @returns {Asked[]} */
function fieldsOf(line, units) {
  const { height_ft: height, cut_ft: cut, cable, zone } = line.designed;
  return [
    { key: "height", label: "Height", was: height === null ? "" : lengthText(height, units), usual: "as designed" },
    { key: "cable", label: `Cable pulled, ${units === "metric" ? "m" : "ft"}`, was: cut === null ? (cable ? "no way to a can" : "none") : `cut ${units === "metric" ? (cut / FEET_PER_METRE).toFixed(1) : cut}` },
    { key: "east", label: "Off the design, east", usual: "0; west is −" },
    { key: "north", label: "Off the design, north", usual: "0; south is −" },
    { key: "zone", label: "Zone", was: zone === null ? "" : String(zone) },
    { key: "terminal", label: "Terminal" },
    { key: "by", label: "Who" },
    { key: "on", label: "When", type: "date" },
    { key: "note", label: "Note", most: 2000 },
  ];
}

/** What the fields say of an entry. @param {BuiltEntry | undefined} entry @param {BuiltLine} line @param {"imperial" | "metric"} units @returns {Record<string, string>} */
function typedOf(entry, line, units) {
  if (!entry) return { by: lastName, on: today(), as_designed: "yes" };
  const length = (/** @type {number | null | undefined} */ feet) => (feet == null ? "" : lengthText(feet, units));
  const { at } = line.designed;
  return {
    as_designed: entry.as_designed ? "yes" : "", height: length(entry.height),
    cable: entry.cable_ft == null ? "" : String(units === "metric" ? Math.round(entry.cable_ft / FEET_PER_METRE * 100) / 100 : entry.cable_ft),
    east: entry.at && at ? length(entry.at[0] - at[0]) : "", north: entry.at && at ? length(entry.at[1] - at[1]) : "",
    zone: entry.zone ?? "", terminal: entry.terminal ?? "", note: entry.note ?? "", by: entry.by ?? "", on: entry.on ?? "",
  };
}

/** The entry that the fields say; raises with the field to mend. @param {BuiltLine} line @param {Record<string, string>} said @param {"imperial" | "metric"} units @returns {BuiltEntry} */
function entryFrom(line, said, units) {
  const length = (/** @type {string} */ key, /** @type {string} */ name) => {
    if (!said[key]) return null;
    const feet = parseLength(said[key], units);
    if (feet === null || Math.abs(feet) > 10_000) throw new Error(`${name}: ${HOW_TO_TYPE}`);
    return feet;
  };
  const height = length("height", "height");
  if (height !== null && (height < 0 || height > 100)) throw new Error("height: from 0 to 100 ft above the floor");
  const cable = said["cable"] ? Number(said["cable"]) * (units === "metric" ? FEET_PER_METRE : 1) : null;
  if (cable !== null && !(cable >= 0 && cable <= 30_000)) throw new Error(`cable pulled: type a number of ${units === "metric" ? "metres" : "feet"}`);
  const [east, north] = [length("east", "east"), length("north", "north")];
  const { at } = line.designed;
  /** @type {Point | null} */
  const place = at && (east || north) ? [at[0] + (east ?? 0), at[1] + (north ?? 0)] : null;
  return {
    device: line.device, as_designed: said["as_designed"] === "yes", at: place, height, cable_ft: cable === null ? null : Math.round(cable * 100) / 100,
    zone: said["zone"] ?? "", terminal: said["terminal"] ?? "", note: said["note"] ?? "", by: said["by"] ?? "", on: said["on"] || null,
  };
}
