/** The table of layers: what each holds, and what it is taken as; an IFC's storeys are ticked in the same table. */

/** @import { Layer, Role, Storey } from "./types.js" */

import { h } from "../panels/html.js";

const WORDS = /** @type {const} */ ({ lines: "lines", arcs: "arcs", areas: "closed shapes", texts: "texts", blocks: "blocks", other: "not read" });

/**
 * @param {HTMLElement} body @param {Layer[]} layers @param {HTMLTemplateElement} options
 * @param {{changed: () => void, lifted: (layer: number | null) => void}} told
 */
export function fillLayers(body, layers, options, told) {
  body.replaceChildren(...layers.map((layer, index) => {
    const id = `role-${index}`;
    const choice = h("select", { id, onchange: told.changed, onfocus: () => told.lifted(index), onblur: () => told.lifted(null) }, options.content.cloneNode(true));
    choice.value = layer.role;
    const holds = Object.entries(WORDS).map(([kind, words]) => [layer.counts[/** @type {keyof typeof WORDS} */ (kind)], words]);
    return h("tr", { onpointerenter: () => told.lifted(index), onpointerleave: () => told.lifted(null) },
      h("th", { scope: "row", dir: "auto" }, h("label", { for: id }, layer.name),
        h("span", { class: "quiet" }, [layer.hidden ? "switched off in the drawing" : "", ...holds.filter(([count]) => count).map(([count, words]) => `${count} ${words}`)].filter(Boolean).join(", "))),
      h("td", {}, choice));
  }));
}

/** @param {HTMLElement} body @returns {Role[]} the roles chosen, in the order of the layers */
export const chosenRoles = (body) => [...body.querySelectorAll("select")].map((choice) => /** @type {Role} */ (choice.value));

/** @param {HTMLElement} body @param {Storey[]} storeys @param {() => void} changed */
export function fillStoreys(body, storeys, changed) {
  body.replaceChildren(...storeys.map((storey, index) => h("tr", {},
    h("th", { scope: "row", dir: "auto" }, h("label", { for: `storey-${index}` }, storey.name),
      h("span", { class: "quiet" }, Object.entries(storey.counts).map(([kind, count]) => `${count} ${kind}`).join(", "))),
    h("td", {}, h("input", { type: "checkbox", id: `storey-${index}`, value: storey.name, checked: Boolean(storey.counts.walls), onchange: changed })))));
}

/** @param {HTMLElement} body @returns {string[]} the storeys ticked */
export const chosenStoreys = (body) => [.../** @type {NodeListOf<HTMLInputElement>} */ (body.querySelectorAll("input:checked"))].map((tick) => tick.value);
