/**
 * The steps along the top and the panel of the step in force. A panel is one module with a function that fills its
 * place, fetched when its step is first shown or pointed at; to add one, write the module and put it into this list.
 */

/** @import { Desk } from "../desk.js" */

import { h } from "./html.js";
import { once, tellMissing } from "./late.js";

/**
 * @typedef {Object} Panel
 * @property {(desk: Desk, place: HTMLElement) => void} fill called once, while the place is hidden; the panel listens to the desk itself
 *
 * @typedef {Object} Step
 * @property {string} name
 * @property {string} words what the step is for, in a few words
 * @property {() => Promise<Panel>} panel
 */

/** @type {Step[]} */
export const STEPS = [
  { name: "Shell", words: "Walls, openings, rooms and what stands in them", panel: once(async () => (await import("./shell_tools.js")).shell) },
  { name: "Devices", words: "Place detectors, contacts, keypads and the can", panel: once(async () => (await import("./devices.js")).devices) },
  { name: "Proof", words: "Coverage of glass and floor, the findings, and how the house is protected", panel: once(async () => (await import("./proof.js")).proof) },
  { name: "Cable", words: "Home runs, boxes of cable, zones and power", panel: once(async () => (await import("./cable.js")).cable) },
  { name: "Handover", words: "Sheets and schedules for the homeowner and the crew", panel: once(async () => (await import("./handover.js")).handover) },
];

export class Steps {
  /** @param {Desk} desk @param {HTMLElement} nav @param {HTMLElement} place */
  constructor(desk, nav, place) {
    this.desk = desk;
    this.current = 0;
    this.filled = new Set();
    this.buttons = STEPS.map((step, i) => h("button", {
      type: "button", class: "step", title: step.words, onclick: () => this.show(i),
      onpointerenter: () => this.#fetch(step), onfocus: () => this.#fetch(step),
    }, h("span", { class: "turn", "aria-hidden": "true" }, String(i + 1)), step.name));
    this.places = STEPS.map((step) => h("section", { class: "panel", "aria-label": step.name, hidden: true }));
    nav.append(h("ol", {}, ...this.buttons.map((button) => h("li", {}, button))));
    place.append(...this.places);
    this.show(0);
  }

  /** @param {number} number @returns {Promise<void>} settles when the panel is in sight */
  async show(number) {
    const current = Math.min(STEPS.length - 1, Math.max(0, number));
    if (current !== this.current) this.desk.tools.layDown();
    this.current = current;
    const step = /** @type {Step} */ (STEPS[current]);
    const place = /** @type {HTMLElement} */ (this.places[current]);
    this.buttons.forEach((button, i) => {
      if (i === current) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    });
    document.body.dataset.step = step.name.toLowerCase();
    try {
      const panel = await step.panel();
      if (!this.filled.has(step)) {
        this.filled.add(step);
        place.replaceChildren(h("h2", { class: "only-read" }, `Step ${step.name}`));
        panel.fill(this.desk, place);
      }
    } catch (error) {
      if (this.filled.has(step)) throw error;
      tellMissing(place, () => this.show(current));
    }
    this.places.forEach((other, i) => (other.hidden = i !== this.current));
  }

  /** @param {number} by */
  move(by) {
    this.show(this.current + by);
    this.desk.say(`Step ${STEPS[this.current]?.name}`);
  }

  /** @param {string} name */
  showNamed(name) {
    return this.show(STEPS.findIndex((step) => step.name === name));
  }

  /** @param {Step} step */
  #fetch(step) {
    step.panel().catch(() => {}); // told when the step is shown
  }
}
