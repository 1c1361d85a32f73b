/**
 * What the step Shell shows below its tools: what they draw with, the picture underneath, the levels.
 */

/** @import { Opening } from "../plan/types.js" */
/** @import { Piece } from "../plan/furniture.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Field } from "./fields.js" */

import { FURNITURE } from "../plan/furniture.js";
import { unitsOf } from "../plan/lookup.js";
import { ROOM_USES } from "../plan/room_uses.js";
import { openingWords, sizesUsed } from "../plan/typed_sizes.js";
import { fieldOf, section } from "./fields.js";
import { h } from "./html.js";
import { showLevels } from "./levels.js";
import { underlayPart } from "./underlay.js";

/** Fill the rest of the step. @param {Desk} desk @param {HTMLElement} place @param {HTMLElement} options where the tool in force is told what it draws with */
export function fillShell(desk, place, options) {
  place.append(underlayPart(desk), showLevels(desk));
  const draw = () => options.replaceChildren(...optionFields(desk).filter((part) => part !== false));
  desk.tools.listen((field) => field === null && draw());
  desk.store.listen((topic) => topic === "plan" && options.dataset.units !== unitsOf(desk.store.plan) && draw());
  draw();
}

/** What the tool in force draws with. @param {Desk} desk */
function optionFields(desk) {
  const { tools } = desk;
  const units = unitsOf(desk.store.plan);
  /** @param {Record<string, any>} values @param {Field[]} fields */
  const build = (values, fields) => fields.map((field) => fieldOf(field, units, (value) => {
    values[field.key] = value;
    field.value = value;
  }));
  switch (tools.current) {
    case "name": return [h("div", { class: "buttons" }, h("button", { type: "button", title: "Name rooms in turn (Enter)", onclick: () => desk.pointer.gesture.enter?.() }, "Name rooms in turn")), roomChoice(desk)];
    case "piece": return [pieceChoice(desk), section("Next piece", ...build(chosenPiece(desk), pieceFields(chosenPiece(desk))))];
    case "bay": return [section("Next bay", ...build(tools.bay, [
      { key: "width", label: "Width", type: "length", value: tools.bay.width, low: 1, high: 60 },
      { key: "projection", label: "Projection", type: "length", value: tools.bay.projection, low: 0.5, high: 30 },
      { key: "angle", label: "Angle of its sides", type: "number", unit: "°", value: tools.bay.angle, low: 20, high: 90 },
      { key: "windows", label: "With windows", type: "flag", value: tools.bay.windows },
      { key: "sill", label: "Sill (AFF)", type: "length", value: tools.bay.sill, low: 0, high: 100, why: (sill) => (sill < tools.bay.head ? null : "the sill must be below the head") },
      { key: "head", label: "Head (AFF)", type: "length", value: tools.bay.head, low: 0.1, high: 100, why: (head) => (head > tools.bay.sill ? null : "the head must be above the sill") },
    ]))];
    case "arc": return [section("Next curved wall", ...build(tools.wall, [
      { key: "thickness", label: "Thickness", type: "length", value: tools.wall.thickness, low: 0.02, high: 20 },
      { key: "height", label: "Height", type: "length", value: tools.wall.height, low: 0.1, high: 100, usual: "to the ceiling" },
    ]), ...build(tools.arc, [
      { key: "within", label: "Straight walls within", type: "length", value: tools.arc.within, low: 1 / 192, high: 2, words: "How far they may lie off the arc." },
    ]))];
    case "wall":
    case "partition":
    case "room": return [...(tools.current === "room" ? [roomChoice(desk)] : []), section("Next walls", ...build(tools.wall, [
      { key: "thickness", label: "Thickness", type: "length", value: tools.wall.thickness, low: 0.02, high: 20 },
      { key: "height", label: "Height", type: "length", value: tools.wall.height, low: 0.1, high: 100, usual: "to the ceiling", words: "A height draws half walls." },
    ]))];
    case "window":
    case "door":
    case "cased": return [usedSizes(desk, tools.current), section("Next one", ...build(tools.openings[tools.current], openingFields(tools.openings[tools.current], tools.current)))];
    case "obstruction": return [section("Next obstruction", ...build(tools.obstruction, [
      { key: "shape", label: "Drawn as", type: "choice", value: tools.obstruction.shape, choices: [["box", "A box"], ["outline", "An outline"]] },
      { key: "label", label: "Label", type: "text", value: tools.obstruction.label },
      { key: "base", label: "Base (AFF)", type: "length", value: tools.obstruction.base, low: 0, high: 100 },
      { key: "top", label: "Top (AFF)", type: "length", value: tools.obstruction.top, low: 0, high: 100, usual: "to the ceiling" },
    ]))];
    default: return [];
  }
}

/** @param {Desk} desk @returns {Piece} */
const chosenPiece = (desk) => (desk.tools.piece ??= { .../** @type {Piece} */ (FURNITURE.find((piece) => piece.name === "sofa")) });

/** @param {Piece} piece @returns {Field[]} */
const pieceFields = (piece) => [
  { key: "label", label: "Label", type: "text", value: piece.label },
  { key: "width", label: "Width", type: "length", value: piece.width, low: 0.1, high: 200 },
  { key: "depth", label: "Depth", type: "length", value: piece.depth, low: 0.1, high: 200 },
  { key: "base", label: "Base (AFF)", type: "length", value: piece.base, low: 0, high: 100, why: (base) => (piece.top === null || base < piece.top ? null : "the base must be below the top") },
  { key: "top", label: "Top (AFF)", type: "length", value: piece.top, low: 0, high: 100, usual: "to the ceiling", why: (top) => (top > piece.base ? null : "the top must be above the base") },
];

/** Buttons of which one is pressed. @param {string} label @param {[string, string][]} choices @param {string} chosen @param {(value: string) => void} choose */
function chips(label, choices, chosen, choose) {
  return h("div", { class: "chips", role: "group", "aria-label": label },
    ...choices.map(([value, words]) => h("button", { type: "button", "aria-pressed": String(value === chosen), onclick: () => choose(value) }, words)));
}

/** The pieces that can be put down, by group. @param {Desk} desk */
function pieceChoice(desk) {
  const choose = (/** @type {string} */ name) => {
    desk.tools.piece = { .../** @type {Piece} */ (FURNITURE.find((piece) => piece.name === name)) };
    desk.tools.use("piece");
    desk.drawing.board.focus({ preventScroll: true });
  };
  const groups = [...new Set(FURNITURE.map((piece) => piece.group))];
  return h("section", { class: "pieces" },
    ...groups.flatMap((group) => [h("h3", {}, group), chips(group, FURNITURE.filter((piece) => piece.group === group).map((piece) => [piece.name, piece.label]), chosenPiece(desk).name, choose)]),
    h("p", { class: "quiet" }, "Usual sizes and heights: common practice, no source. Stairs count as a block of half their rise."));
}

/** The use of the rooms drawn or named next. @param {Desk} desk */
function roomChoice(desk) {
  const choose = (/** @type {string} */ use) => {
    desk.tools.roomUse = use === desk.tools.roomUse ? "" : use;
    desk.tools.use(desk.tools.current);
    desk.drawing.board.focus({ preventScroll: true });
  };
  const more = h("select", { "aria-label": "Other uses", onchange: () => choose(more.value) },
    h("option", { value: "" }, "Other uses"), ...ROOM_USES.slice(12).map(([use, words]) => h("option", { value: use, selected: use === desk.tools.roomUse }, words)));
  return h("section", { class: "room-uses" }, h("h3", {}, "Use of the next room"), chips("Use of the next room", ROOM_USES.slice(0, 12), desk.tools.roomUse, choose), more);
}

/** The sizes of a kind that the plan has, the newest first: a press takes one up again. @param {Desk} desk @param {Opening["kind"]} kind */
function usedSizes(desk, kind) {
  const units = unitsOf(desk.store.plan);
  const sizes = sizesUsed(desk.store.plan, kind).map((shape) => /** @type {const} */ ([openingWords(shape, kind, units), shape]));
  const choose = (/** @type {string} */ words) => {
    desk.tools.openings[kind] = { ...desk.tools.openings[kind], ...sizes.find(([said]) => said === words)?.[1] };
    desk.tools.reshaped();
    desk.drawing.board.focus({ preventScroll: true });
  };
  return sizes.length > 1 && h("section", { class: "used-sizes" }, h("h3", {}, "Sizes in this plan"), chips("Sizes in this plan", sizes.map(([words]) => [words, words]), openingWords(desk.tools.openings[kind], kind, units), choose));
}

/** @param {Desk["tools"]["openings"]["door"]} shape @param {Opening["kind"]} kind @returns {Field[]} */
function openingFields(shape, kind) {
  return [
    { key: "width", label: "Width", type: "length", value: shape.width, low: 0.2, high: 100 },
    ...(kind === "window" ? [/** @type {Field} */ ({ key: "sill", label: "Sill (AFF)", type: "length", value: shape.sill, low: 0, high: 100 })] : []),
    { key: "head", label: "Head (AFF)", type: "length", value: shape.head, low: 0.1, high: 100 },
    ...(kind === "window" ? [/** @type {Field} */ ({ key: "panes", label: "Panes", type: "number", value: shape.panes ?? 1, low: 1, high: 100, whole: true })] : []),
    ...(kind === "door" ? /** @type {Field[]} */ ([
      { key: "leaf", label: "Leaf", type: "choice", value: shape.leaf ?? "swing", choices: [["swing", "Swings"], ["slide", "Slides"], ["overhead", "Overhead"], ["fixed", "Fixed"]] },
      { key: "glazed", label: "Has glass", type: "flag", value: shape.glazed ?? false },
    ]) : []),
  ];
}
