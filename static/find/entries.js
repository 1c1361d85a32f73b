/**
 * All that can be found: things of every level, glass, findings, levels, risers, steps, tools and commands.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Key } from "../gestures/keys.js" */
/** @import { Steps } from "../panels/steps.js" */
/** @import { Found } from "../plan/lookup.js" */
/** @import { Entry } from "./ranking.js" */

import { leadTo } from "../gestures/actions.js";
import { SEVERITY_WORDS, STATUS_WORDS } from "../panels/status.js";
import { STEPS } from "../panels/steps.js";
import { FIXTURE_WORDS, OPENING_WORDS, index, kindOf, nameOf } from "../plan/lookup.js";
import { roomsAt } from "./rooms_at.js";

/** @type {Record<Found["family"], string>} */
const GROUPS = { walls: "Wall", openings: "Opening", fixtures: "Fixture", rooms: "Room", devices: "Device" };
/** Commands that speak of held keys or the keyboard's own cursor are told in help and lead nowhere. */
const COMMANDS = new Set(["Undo", "Do again", "Select all on the level", "Copy", "Paste on the level in view", "Duplicate", "Delete the selection", "Fit the level in the window", "This help"]);

/** @param {Desk} desk @param {Steps} steps @param {Key[]} keys @returns {Entry[]} */
export function entriesOf(desk, steps, keys) {
  return [...things(desk), ...panes(desk), ...findings(desk, steps), ...places(desk), ...doings(desk, steps, keys)];
}

/** @param {Desk} desk @returns {Entry[]} */
function things(desk) {
  const roomOf = roomsAt(desk);
  return [...index(desk.store.plan).values()].map((found) => {
    const { thing, level, family } = found;
    const title = nameOf(found, desk.tables);
    const kind = kindWords(desk, found);
    const room = family === "rooms" ? "" : roomOf(found);
    return {
      group: GROUPS[family], title, more: [title.startsWith(kind) ? "" : kind, room, level.name].filter(Boolean).join(" · "),
      names: [thing.id, kind, ..."label" in thing && thing.label ? [thing.label] : []], go: () => leadTo(desk, thing.id),
    };
  });
}

/** @param {Desk} desk @param {Found} found */
function kindWords(desk, found) {
  switch (found.family) {
    case "devices": return kindOf(desk.tables, found.thing.kind).name;
    case "fixtures": return FIXTURE_WORDS[found.thing.kind];
    case "openings": return OPENING_WORDS[found.thing.kind];
    case "rooms": return (found.thing.use ?? "").replaceAll("_", " ");
    default: return "";
  }
}

/** @param {Desk} desk @returns {Entry[]} */
function panes(desk) {
  return desk.proof.panes.map((pane) => ({
    group: "Pane", title: `Pane ${pane.id}`, more: `${STATUS_WORDS[pane.status]} · ${pane.why}`, names: [pane.id],
    go: () => leadTo(desk, pane.opening, pane.id),
  }));
}

/** @param {Desk} desk @param {Steps} steps @returns {Entry[]} */
function findings(desk, steps) {
  return (desk.proof.answer?.findings ?? []).map((finding) => ({
    group: "Finding", title: finding.message, more: `${SEVERITY_WORDS[finding.severity]} · ${finding.rule}`, names: [finding.rule, ...finding.things],
    go: () => {
      steps.showNamed("Proof");
      if (finding.things[0]) leadTo(desk, finding.things[0]);
    },
  }));
}

/** @param {Desk} desk @returns {Entry[]} */
function places(desk) {
  const { plan } = desk.store;
  const names = new Map(plan.levels.map((level) => [level.id, level.name]));
  return [
    ...plan.levels.map((level) => ({ group: "Level", title: level.name, more: `${(level.rooms ?? []).length} rooms`, names: [level.id], go: () => {
      desk.store.showLevel(level.id);
      desk.drawing.fit();
    } })),
    ...(plan.risers ?? []).map((riser) => ({ group: "Riser", title: `Riser ${riser.id}`, more: `${names.get(riser.from) ?? riser.from} to ${names.get(riser.to) ?? riser.to}`, names: [riser.id], go: () => {
      desk.store.showLevel(riser.from);
      desk.view.centre(riser.at, 12);
    } })),
  ];
}

/** @param {Desk} desk @param {Steps} steps @param {Key[]} keys @returns {Entry[]} */
function doings(desk, steps, keys) {
  return [
    ...STEPS.map((step) => ({ group: "Step", title: step.name, more: step.words, go: () => void steps.showNamed(step.name) })),
    ...desk.tools.list.map((tool) => ({ group: "Tool", title: tool.words, more: tool.key ? `key ${tool.key.toUpperCase()}` : "", names: [tool.name], go: () => desk.tools.use(tool.name) })),
    ...keys.filter((key) => COMMANDS.has(key.words)).map((key) => ({ group: "Command", title: key.words, more: key.keys, go: () => key.act(new KeyboardEvent("keydown")) })),
    { group: "Page", title: "All plans", more: "the list of plans and the samples", go: () => location.assign("/") },
    { group: "Page", title: "Help in full", more: "every rule and design value with its source", names: ["rules", "practice", "sources"], go: () => location.assign("/help") },
  ];
}
