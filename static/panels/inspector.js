/**
 * The properties of the selection in one place: what it is, its values with bounds, what can be done to it.
 */

/** @import { Device, Fixture, Opening, Point, Room, Wall } from "../plan/types.js" */
/** @import { Found } from "../plan/lookup.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Field } from "./fields.js" */

import { direction, distance } from "../geometry/points.js";
import { changeThing, joinWalls, splitWall, withLevel } from "../plan/edits.js";
import { resized, sizeOf } from "../plan/furniture.js";
import { FAMILIES, FIXTURE_WORDS, find, index, kindOf, nameOf, practiceOf, unitsOf, wallOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { keepOpenings, whyNoSeat } from "../plan/openings_keep.js";
import { ROOM_USES, useWords } from "../plan/room_uses.js";
import { withLength } from "../plan/wall_shift.js";
import * as alterations from "../gestures/alterations.js";
import { alignButtons } from "./align_buttons.js";
import { fieldOf } from "./fields.js";
import { h } from "./html.js";

/** @type {"a" | "b"} the end of a wall that stays when another length is typed */
let stays = "a";

/** @param {Desk} desk @param {HTMLElement} place */
export function showInspector(desk, place) {
  let drawn = "";
  const draw = () => {
    const { ids } = desk.selection;
    const found = [...ids].map((id) => find(desk.store.plan, id)).filter((entry) => entry !== undefined);
    const key = JSON.stringify([found.map((entry) => entry.thing), unitsOf(desk.store.plan), desk.store.plan.practice]);
    if (key === drawn) return;
    drawn = key;
    const held = document.activeElement instanceof HTMLElement && place.contains(document.activeElement) ? document.activeElement.dataset.key : undefined;
    if (place.hidden && found.length && desk.tools.current === "select" && document.body.dataset.step !== "cable") place.closest(".side")?.scrollTo(0, 0);
    place.hidden = !found.length;
    place.replaceChildren(...(found.length === 1 ? one(desk, /** @type {Found} */ (found[0])) : found.length ? many(desk, found) : []));
    if (held) focusOn(place, held);
  };
  desk.selection.listen(draw);
  desk.store.listen((topic) => topic === "plan" && draw());
  desk.tools.listen((field) => {
    if (field === null) return;
    draw();
    focusOn(place, field);
  });
  place.addEventListener("keydown", (event) => event.key === "Escape" && desk.drawing.board.focus({ preventScroll: true }));
  draw(); // what was selected while this module came
}

/** @param {HTMLElement} place @param {string} key */
function focusOn(place, key) {
  const control = place.querySelector(key ? `[data-key="${key}"]` : "[data-key]");
  if (!(control instanceof HTMLElement)) return;
  control.focus();
  if (control instanceof HTMLInputElement && key === "name") control.select();
}

/** @param {Desk} desk @param {Found} found */
function one(desk, found) {
  const units = unitsOf(desk.store.plan);
  const { id } = found.thing;
  const change = (/** @type {string} */ key) => (/** @type {any} */ value) => {
    const now = find(desk.store.plan, id);
    if (key === "stays") stays = value;
    else if (now) desk.store.commit(`Change ${nameOf(now, desk.tables)}`, changed(desk, now, key, value));
  };
  return [
    head(desk, nameOf(found, desk.tables), kindWords(desk, found)),
    h("div", { class: "fields" }, ...fieldsOf(desk, found).map((field) => fieldOf(field, units, change(field.key)))),
    alignButtons(desk, [found]),
    turns(desk, [found]),
    buttons(desk, found),
  ].filter((part) => part !== null);
}

/** @param {Desk} desk @param {Found[]} found */
function many(desk, found) {
  const counts = new Map(FAMILIES.map((family) => [family, found.filter((entry) => entry.family === family).length]));
  const words = [...counts].filter(([, count]) => count).map(([family, count]) => `${count} ${count === 1 ? family.slice(0, -1) : family}`).join(", ");
  const [first, second] = found;
  const pair = found.length === 2 && first?.family === "walls" && second?.family === "walls" && first.level === second.level;
  return [
    head(desk, `${found.length} things selected`, words),
    pair && h("div", { class: "buttons" }, h("button", { type: "button", onclick: () => join(desk, first.thing, second.thing, first) }, "Join into one wall")),
    alignButtons(desk, found),
    turns(desk, found),
    buttons(desk, null),
  ].filter((part) => part !== false && part !== null);
}

/** @param {Desk} desk @param {Wall} one @param {Wall} two @param {Found} found */
function join(desk, one, two, found) {
  const next = joinWalls(desk.store.plan, found.level, one, two);
  if (!next) return desk.say("These walls do not lie on one line end to end", true);
  desk.store.commit(`Join ${one.id} and ${two.id}`, next);
  const thinner = (two.thickness ?? 0.375) !== (one.thickness ?? 0.375) || (two.height ?? null) !== (one.height ?? null);
  desk.say(`${two.id} is now part of ${one.id}; the openings of both stay where they are${thinner ? `, with the thickness and height of ${one.id}` : ""}`);
}

/** @param {Desk} desk @param {string} title @param {string} words */
function head(desk, title, words) {
  return h("div", { class: "inspector-head" },
    h("h2", {}, title),
    h("p", { class: "quiet" }, words),
    h("button", { type: "button", class: "icon", "aria-label": "Let go of the selection", onclick: () => desk.selection.set([]) }, "×"));
}

/** @param {Desk} desk @param {Found | null} found */
function buttons(desk, found) {
  const wall = found?.family === "walls" ? found : null;
  return h("div", { class: "buttons" },
    wall && h("button", { type: "button", onclick: () => split(desk, wall.thing, wall) }, "Split in the middle"),
    wall && h("button", { type: "button", onclick: () => desk.tools.use("cut") }, "Cut at a point"),
    found?.family !== "openings" && h("button", { type: "button", onclick: () => alterations.duplicate(desk) }, "Duplicate"),
    h("button", { type: "button", class: "danger", onclick: () => alterations.remove(desk) }, "Delete"));
}

/** Turning and mirroring, where the selection has what can be. @param {Desk} desk @param {Found[]} found */
function turns(desk, found) {
  if (found.every((entry) => entry.family === "rooms" || (entry.family === "openings" && entry.thing.kind !== "door"))) return null;
  const button = (/** @type {string} */ words, /** @type {string} */ title, /** @type {() => void} */ act) => h("button", { type: "button", title, "aria-label": title.replace(/ \(.*/, ""), onclick: act }, words);
  if (found.every((entry) => entry.family === "openings")) return h("div", { class: "buttons" }, button("Hang on the other jamb", "Hang on the other jamb (H)", () => alterations.mirror(desk, "upright")));
  const angle = fieldOf({ key: "turn-by", label: "Turn by", type: "number", unit: "°, left is positive", value: null, low: -360, high: 360, usual: "angle" }, "imperial", (degrees) => degrees && alterations.turn(desk, degrees));
  return h("section", { class: "turns", "aria-label": "Turn and mirror" },
    h("div", { class: "buttons" },
      button("↶ 90°", "Turn by 90° to the left (Q)", () => alterations.turn(desk, 90)), button("↷ 90°", "Turn by 90° to the right (E)", () => alterations.turn(desk, -90)),
      button("⇆ Mirror", "Mirror left to right (H)", () => alterations.mirror(desk, "upright")), button("⇅ Mirror", "Mirror top to bottom (Shift+H)", () => alterations.mirror(desk, "level"))),
    angle);
}

/** @param {Desk} desk @param {Wall} wall @param {Found} found */
function split(desk, wall, found) {
  const next = splitWall(desk.store.plan, found.level, wall, distance(wall.a, wall.b) / 2);
  if (!next) return desk.say("An opening stands across the middle: move it first", true);
  desk.store.commit(`Split wall ${wall.id}`, next);
  desk.say(`Wall ${wall.id} is split; its openings stay where they are`);
}

/** @param {Desk} desk @param {Found} found */
function kindWords(desk, found) {
  const units = unitsOf(desk.store.plan);
  switch (found.family) {
    case "walls": return `${found.level.name} · ${lengthText(distance(found.thing.a, found.thing.b), units)} long`;
    case "openings": return `in wall ${found.thing.wall} · ${found.level.name}`;
    case "fixtures": return `${FIXTURE_WORDS[found.thing.kind]} · ${found.level.name}`;
    case "rooms": return `Room · ${found.level.name}`;
    case "devices": {
      const kind = kindOf(desk.tables, found.thing.kind);
      return `${kind.name}. ${kind.words}`;
    }
  }
}

/** The plan with one value of a thing changed. @param {Desk} desk @param {Found} found @param {string} key @param {any} value */
function changed(desk, found, key, value) {
  const { plan } = desk.store;
  const { id } = found.thing;
  if (found.family === "fixtures" && found.thing.polygon && (key === "wide" || key === "deep")) {
    const size = sizeOf(found.thing.polygon);
    return size ? changeThing(plan, id, { polygon: resized(found.thing.polygon, key === "wide" ? value : size.width, key === "deep" ? value : size.depth) }) : plan;
  }
  if (found.family === "walls" && key === "length") return lengthened(desk, found.thing, found, value);
  if (key === "x" || key === "y") {
    const at = "at" in found.thing && found.thing.at ? found.thing.at : [0, 0];
    return changeThing(plan, id, { at: key === "x" ? [value, at[1]] : [at[0], value] });
  }
  if (key === "from_b" && found.family === "openings") {
    const wall = wallOf(found.level, found.thing.wall);
    return wall ? changeThing(plan, id, { offset: distance(wall.a, wall.b) - value - found.thing.width }) : plan;
  }
  if (key === "exterior" || key === "glazed" || key === "operable") return changeThing(plan, id, { [key]: value === "" ? null : value === "true" });
  if (key === "serves") return changeThing(plan, id, { serves: value.split(/[\s,]+/).filter(Boolean) });
  if (value === "" && (key === "hinge" || key === "mount" || key === "cable")) return changeThing(plan, id, { [key]: null });
  return changeThing(plan, id, { [key]: value });
}

/** @param {Desk} desk @param {Wall} wall @param {Found} found @param {number} length */
function lengthened(desk, wall, found, length) {
  const grown = withLength(desk.store.plan, found.level, wall, length, stays);
  if (!grown) {
    desk.say("A wall that meets it would have no length left", true);
    return desk.store.plan;
  }
  const kept = keepOpenings(found.level, grown, unitsOf(desk.store.plan));
  for (const words of kept.words) desk.say(words, true);
  return withLevel(desk.store.plan, found.level.id, () => kept.level);
}

/** @param {Desk} desk @param {Found} found @returns {Field[]} */
function fieldsOf(desk, found) {
  switch (found.family) {
    case "walls": return wallFields(found.thing);
    case "openings": return openingFields(desk, found.thing, found);
    case "fixtures": return fixtureFields(found.thing);
    case "rooms": return roomFields(found.thing);
    case "devices": return deviceFields(desk, found.thing, found);
  }
}

/** @param {Wall} wall @returns {Field[]} */
const wallFields = (wall) => [
  { key: "length", label: "Length", type: "length", value: distance(wall.a, wall.b), low: 0.05, high: 2000 },
  { key: "stays", label: "End that stays", type: "choice", value: stays, choices: [["a", endWords(wall.b, wall.a)], ["b", endWords(wall.a, wall.b)]] },
  { key: "thickness", label: "Thickness", type: "length", value: wall.thickness ?? 0.375, low: 0.02, high: 20 },
  { key: "height", label: "Height", type: "length", value: wall.height, low: 0.1, high: 100, usual: "to the ceiling", words: "A height makes it a half wall." },
];

/** Which end of a wall a point is, as seen from the other. @param {Point} from @param {Point} to */
function endWords(from, to) {
  const [x, y] = direction(from, to);
  return `${["", "North", "South"][Math.abs(y) > 0.38 ? (y > 0 ? 1 : 2) : 0] ?? ""}${Math.abs(x) > 0.38 ? (Math.abs(y) > 0.38 ? (x > 0 ? "-east" : "-west") : x > 0 ? "East" : "West") : ""} end`;
}

/** @param {Desk} desk @param {Opening} opening @param {Found} found @returns {Field[]} */
function openingFields(desk, opening, found) {
  const units = unitsOf(desk.store.plan);
  const wall = wallOf(found.level, opening.wall);
  const length = wall ? distance(wall.a, wall.b) : 0;
  const seat = (/** @type {Partial<Opening>} */ keys) => {
    const fault = whyNoSeat(found.level, { ...opening, ...keys }, units);
    return fault && `does not fit: ${fault}`;
  };
  const yesNo = /** @type {[string, string][]} */ ([["", "As usual"], ["true", "Yes"], ["false", "No"]]);
  return [
    { key: "width", label: "Width", type: "length", value: opening.width, low: 0.2, high: 100, why: (width) => seat({ width }) },
    { key: "offset", label: "From wall start", type: "length", value: opening.offset, low: 0, why: (offset) => seat({ offset }) },
    { key: "from_b", label: "From wall end", type: "length", value: length - opening.offset - opening.width, low: 0, why: (rest) => seat({ offset: length - rest - opening.width }) },
    { key: "sill", label: "Sill (AFF)", type: "length", value: opening.sill ?? 0, low: 0, high: 100, why: (sill) => (sill < (opening.head ?? 6.667) ? null : "the sill must be below the head") },
    { key: "head", label: "Head (AFF)", type: "length", value: opening.head ?? 6.667, low: 0, high: 100, why: (head) => (head > (opening.sill ?? 0) ? null : "the head must be above the sill") },
    ...(opening.kind === "cased" ? [] : /** @type {Field[]} */ ([
      { key: "panes", label: "Panes side by side", type: "number", value: opening.panes ?? 1, low: 1, high: 100, whole: true },
      { key: "glazed", label: "Has glass", type: "choice", value: opening.glazed ?? "", choices: yesNo },
      { key: "operable", label: "Can be opened", type: "choice", value: opening.operable ?? "", choices: yesNo },
    ])),
    ...(opening.kind === "door" ? /** @type {Field[]} */ ([
      { key: "leaf", label: "Leaf", type: "choice", value: opening.leaf ?? "swing", choices: [["swing", "Swings"], ["slide", "Slides"], ["overhead", "Overhead"], ["fixed", "Fixed"]] },
      { key: "hinge", label: "Hinges at", type: "choice", value: opening.hinge ?? "", choices: [["", "Not said"], ["a", "Wall start"], ["b", "Wall end"]] },
    ]) : []),
    { key: "exterior", label: "To the outside", type: "choice", value: opening.exterior ?? "", choices: [["", "Worked out"], ["true", "Yes"], ["false", "No"]] },
  ];
}

/** @param {Fixture} fixture @returns {Field[]} */
function fixtureFields(fixture) {
  /** @type {Field} */
  const label = { key: "label", label: "Label", type: "text", value: fixture.label ?? "" };
  if (!fixture.polygon) return [label, { key: "height", label: "Height (AFF)", type: "length", value: fixture.height, low: 0, high: 100, usual: "not said" }];
  const size = sizeOf(fixture.polygon);
  return [
    label,
    ...(size ? /** @type {Field[]} */ ([
      { key: "wide", label: "Width", type: "length", value: size.width, low: 0.1, high: 200 },
      { key: "deep", label: "Depth", type: "length", value: size.depth, low: 0.1, high: 200 },
    ]) : []),
    { key: "base", label: "Base (AFF)", type: "length", value: fixture.base ?? 0, low: 0, high: 100, why: (base) => (fixture.top == null || base < fixture.top ? null : "the base must be below the top") },
    { key: "top", label: "Top (AFF)", type: "length", value: fixture.top, low: 0, high: 100, usual: "to the ceiling", why: (top) => (top > (fixture.base ?? 0) ? null : "the top must be above the base") },
  ];
}

/** @param {Room} room @returns {Field[]} */
const roomFields = (room) => [
  { key: "name", label: "Name", type: "text", value: room.name },
  { key: "use", label: "Use", type: "choice", value: room.use ?? "other", choices: [...new Set([...ROOM_USES.map(([use]) => use), room.use ?? "other"])].map((use) => [use, useWords(use)]) },
];

/** @param {Desk} desk @param {Device} device @param {Found} found @returns {Field[]} */
function deviceFields(desk, device, found) {
  const { plan } = desk.store;
  const kind = kindOf(desk.tables, device.kind);
  const units = unitsOf(plan);
  const reach = device.kind === "motion" ? "motion.range" : device.kind === "glass_break" ? "glass.range" : null;
  const usual = (/** @type {string} */ key) => Number(practiceOf(plan, desk.tables, key));
  return [
    { key: "label", label: "Label", type: "text", value: device.label ?? "" },
    { key: "x", label: "East", type: "length", value: device.at[0], low: -10000, high: 10000 },
    { key: "y", label: "North", type: "length", value: device.at[1], low: -10000, high: 10000 },
    { key: "height", label: "Height (AFF)", type: "length", value: device.height, low: 0, high: 100, usual: lengthText(kind.height ?? found.level.ceiling ?? 9, units) },
    ...(kind.faces ? [/** @type {Field} */ ({ key: "facing", label: "Faces", type: "number", unit: "°, 0 is east", value: device.facing, low: -360, high: 360, usual: "not said" })] : []),
    ...(reach ? [/** @type {Field} */ ({ key: "range", label: "Range", type: "length", value: device.range, low: 0.5, high: 1000, usual: lengthText(usual(reach), units) })] : []),
    ...(device.kind === "motion" ? [/** @type {Field} */ ({ key: "view_angle", label: "View angle", type: "number", unit: "°", value: device.view_angle, low: 1, high: 360, usual: String(usual("motion.view_angle")) })] : []),
    ...(device.kind.endsWith("contact") ? [/** @type {Field} */ ({ key: "serves", label: "Serves openings", type: "text", value: (device.serves ?? []).join(", "), why: (text) => unknown(desk, text) })] : []),
    ...(kind.cable ? [/** @type {Field} */ ({ key: "cable", label: "Cable", type: "text", value: device.cable ?? "", usual: kind.cable, most: 40 })] : []),
    { key: "note", label: "Note", type: "long", value: device.note ?? "" },
  ];
}

/** @param {Desk} desk @param {string} text */
function unknown(desk, text) {
  const known = index(desk.store.plan);
  const lost = text.split(/[\s,]+/).find((id) => id && known.get(id)?.family !== "openings");
  return lost ? `there is no opening ${lost}` : null;
}
