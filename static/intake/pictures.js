/** The server's pictures put into the page: parsed as SVG, so that nothing in a drawing's texts can be more than text. */

/** @import { Role } from "./types.js" */

/** @param {HTMLElement} place @param {string} source an SVG document */
export function showPicture(place, source) {
  const read = new DOMParser().parseFromString(source, "image/svg+xml").documentElement;
  if (read.localName === "svg") place.replaceChildren(document.importNode(read, true));
}

/** @param {HTMLElement} place @param {Role[]} roles of the layers by their place in the list */
export function markRoles(place, roles) {
  for (const group of place.querySelectorAll("g[data-layer]")) {
    group.setAttribute("class", `as-${roles[Number(group.getAttribute("data-layer"))]}`);
  }
}

/** @param {HTMLElement} place @param {number | null} layer the one to lift out, or none */
export function liftLayer(place, layer) {
  for (const group of place.querySelectorAll("g[data-layer]")) {
    group.classList.toggle("lifted", layer !== null && Number(group.getAttribute("data-layer")) === layer);
  }
}
