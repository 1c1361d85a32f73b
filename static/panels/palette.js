/**
 * Buttons for tools: a picture of what is drawn, its words, its key.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Tool } from "../gestures/tools.js" */

import { symbolOf } from "../drawing/devices.js";
import { signOf } from "../drawing/fixtures.js";
import { make } from "../drawing/svg.js";
import { keyWords } from "../gestures/tools.js";
import { kindOf } from "../plan/lookup.js";
import { h } from "./html.js";

/** @type {Record<string, string>} pictures of the tools, drawn in a box of 24: our own */
const PICTURES = {
  select: "M6 3L18 13L12.5 13.5L15.5 20L13 21L10 14.5L6 18Z",
  wall: "M3 9H21V14H3ZM9 9L5 14M14 9L10 14M19 9L15 14",
  partition: "M3 3V21M7 3V21M7 10H21M7 14H21",
  room: "M4 5H20V19H4ZM7 8H17V16H7Z",
  window: "M2 9V15M22 9V15M2 9H22M2 15H22M2 12H22",
  door: "M4 19H8M4 19V6H6V19M6 6A13 13 0 0 1 19 19M17 19H22",
  cased: "M2 9V15H6V9ZM18 9V15H22V9ZM7 9H9M11 9H13M15 9H17M7 15H9M11 15H13M15 15H17",
  obstruction: "M4 6H20V18H4ZM4 12L10 6M4 18L16 6M10 18L20 8M16 18L20 14",
  name: "M5 18L11 5H13L19 18M7.5 13H16.5",
  piece: "M4 19V9H20V19M4 15H20M7 9V5H17V9",
  bay: "M2 18H7L10 9H14L17 18H22",
  arc: "M3 18A9.5 9.5 0 0 1 21 18M6.5 18A6 6 0 0 1 17.5 18",
  cut: "M2 10H10V15H2ZM14 10H22V15H14ZM12 6V19",
  measure: "M3 9H21V16H3ZM7 9V12M11 9V13M15 9V12M19 9V13",
};

/** @param {Tool} tool @param {Desk} desk */
function picture(tool, desk) {
  if (tool.group === "device") return make("svg", { viewBox: "-12 -12 24 24", "aria-hidden": "true", class: "picture" }, [symbolOf(kindOf(desk.tables, tool.name))]);
  if (tool.group === "fixture") return make("svg", { viewBox: "-12 -12 24 24", "aria-hidden": "true", class: "picture" }, signOf(/** @type {"bed"} */ (tool.name)));
  return make("svg", { viewBox: "0 0 24 24", "aria-hidden": "true", class: "picture" }, [make("path", { d: PICTURES[tool.name] ?? "" })]);
}

/** Buttons of some groups of tools. @param {Desk} desk @param {Tool["group"][]} groups @param {string} label */
export function palette(desk, groups, label) {
  const tools = desk.tools.list.filter((tool) => groups.includes(tool.group));
  const buttons = tools.map((tool) => {
    const words = tool.group === "device" ? shortName(tool.words) : tool.words;
    return h("button", { type: "button", class: "tool", "aria-pressed": "false", "data-tool": tool.name, title: tool.key ? `${tool.words} (${keyWords(tool.key)})` : tool.words, onclick: () => desk.tools.use(tool.name) },
      picture(tool, desk), h("span", {}, words), tool.key ? h("kbd", {}, keyWords(tool.key).replace("Shift+", "⇧")) : null);
  });
  const mark = () => tools.forEach((tool, i) => buttons[i]?.setAttribute("aria-pressed", String(tool.name === desk.tools.current)));
  desk.tools.listen(mark);
  mark();
  return h("div", { class: "palette", role: "group", "aria-label": label }, ...buttons);
}

/** A kind's name without its aside: "Can (panel enclosure)" as "Can". @param {string} name */
const shortName = (name) => name.replace(/ \(.*\)$/, "").replace(" detector", "").replace("-door contact", " door contact");
