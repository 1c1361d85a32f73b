/**
 * The step Shell: tools for walls, openings, rooms and fixtures, what they draw with, and the levels.
 */

/** @import { Opening } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Field } from "./fields.js" */
/** @import { Panel } from "./steps.js" */

import { unitsOf } from "../plan/lookup.js";
import { fieldOf, section } from "./fields.js";
import { h } from "./html.js";
import { showLevels } from "./levels.js";
import { palette } from "./palette.js";
import { underlayPart } from "./underlay.js";

/** @type {Panel} */
export const shell = {
  fill(desk, place) {
    const options = h("div", { class: "options" });
    place.append(
      palette(desk, ["any", "shell"], "Draw"),
      options,
      h("details", {}, h("summary", {}, "Points that the rules look at"), palette(desk, ["fixture"], "Fixtures")),
      underlayPart(desk),
      showLevels(desk),
    );
    const draw = () => options.replaceChildren(...optionFields(desk));
    desk.tools.listen((field) => field === null && draw());
    desk.store.listen((topic) => topic === "plan" && options.dataset.units !== unitsOf(desk.store.plan) && draw());
  },
};

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
    case "wall":
    case "room": return [section("Next walls", ...build(tools.wall, [
      { key: "thickness", label: "Thickness", type: "length", value: tools.wall.thickness, low: 0.02, high: 20 },
      { key: "height", label: "Height", type: "length", value: tools.wall.height, low: 0.1, high: 100, usual: "to the ceiling", words: "A height draws half walls." },
    ]))];
    case "window":
    case "door":
    case "cased": return [section("Next one", ...build(tools.openings[tools.current], openingFields(tools.openings[tools.current], tools.current)))];
    case "obstruction": return [section("Next obstruction", ...build(tools.obstruction, [
      { key: "shape", label: "Drawn as", type: "choice", value: tools.obstruction.shape, choices: [["box", "A box"], ["outline", "An outline"]] },
      { key: "label", label: "Label", type: "text", value: tools.obstruction.label },
      { key: "base", label: "Base (AFF)", type: "length", value: tools.obstruction.base, low: 0, high: 100 },
      { key: "top", label: "Top (AFF)", type: "length", value: tools.obstruction.top, low: 0, high: 100, usual: "to the ceiling" },
    ]))];
    default: return [];
  }
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
