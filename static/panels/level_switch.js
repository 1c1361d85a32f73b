/**
 * The switch of levels on the drawing.
 */

/** @import { Desk } from "../desk.js" */

import { downward } from "../plan/lookup.js";
import { h } from "./html.js";

/** @param {Desk} desk @param {HTMLElement} place */
export function levelSwitch(desk, place) {
  let drawn = "";
  const draw = () => {
    const { levels } = desk.store.plan;
    const key = JSON.stringify([levels.map((level) => [level.id, level.name, level.elevation]), desk.store.levelId]);
    if (key === drawn) return;
    drawn = key;
    const sorted = downward(levels);
    place.replaceChildren(...sorted.map((level) => h("button", { type: "button", "aria-pressed": String(level.id === desk.store.levelId), onclick: () => desk.store.showLevel(level.id) }, level.name)));
  };
  desk.store.listen((topic) => topic !== "draft" && draw());
  draw();
}
