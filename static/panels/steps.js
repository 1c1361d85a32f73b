/**
 * The steps along the top and the panel of the step in force. A panel is one module with a name, words and a function
 * that fills its place; to add one, write the module and put it into this list.
 */

/** @import { Desk } from "../desk.js" */

import { cable } from "./cable.js";
import { devices } from "./devices.js";
import { handover } from "./handover.js";
import { h } from "./html.js";
import { proof } from "./proof.js";
import { shell } from "./shell.js";

/**
 * @typedef {Object} Panel
 * @property {string} name
 * @property {string} words what the step is for, in a few words
 * @property {(desk: Desk, place: HTMLElement) => void} fill called once; the panel listens to the desk itself
 */

/** @type {Panel[]} */
export const PANELS = [shell, devices, proof, cable, handover];

export class Steps {
  /** @param {Desk} desk @param {HTMLElement} nav @param {HTMLElement} place */
  constructor(desk, nav, place) {
    this.desk = desk;
    this.current = 0;
    this.buttons = PANELS.map((panel, i) => h("button", { type: "button", class: "step", title: panel.words, onclick: () => this.show(i) }, h("span", { class: "turn", "aria-hidden": "true" }, String(i + 1)), panel.name));
    this.places = PANELS.map((panel) => h("section", { class: "panel", "aria-label": panel.name, hidden: true }));
    nav.append(h("ol", {}, ...this.buttons.map((button) => h("li", {}, button))));
    place.append(...this.places);
    PANELS.forEach((panel, i) => panel.fill(desk, /** @type {HTMLElement} */ (this.places[i])));
    this.show(0);
  }

  /** @param {number} step */
  show(step) {
    this.current = Math.min(PANELS.length - 1, Math.max(0, step));
    this.places.forEach((place, i) => (place.hidden = i !== this.current));
    this.buttons.forEach((button, i) => {
      if (i === this.current) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    });
    document.body.dataset.step = PANELS[this.current]?.name.toLowerCase();
  }

  /** @param {number} by */
  move(by) {
    this.show(this.current + by);
    this.desk.say(`Step ${PANELS[this.current]?.name}`);
  }

  /** @param {string} name */
  showNamed(name) {
    this.show(PANELS.findIndex((panel) => panel.name === name));
  }
}
