/**
 * The server's overlay, taken apart into the page's own drawing: floor that is seen and reach go under the walls,
 * leaders and glass over the openings.
 */

/** Which groups of the overlay go into which of the drawing's layers. */
const UNDER = ["rooms", "motion", "reach"];

/**
 * @param {string} text SVG @param {SVGElement} defs @param {SVGElement} under @param {SVGElement} over
 */
export function adoptOverlay(text, defs, under, over) {
  const svg = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  if (svg.localName !== "svg") return;
  const [below, above] = [/** @type {Element[]} */ ([]), /** @type {Element[]} */ ([])];
  for (const part of [...svg.children]) {
    if (part.localName === "defs") defs.replaceChildren(...part.children);
    else (UNDER.includes(part.getAttribute("class") ?? "") ? below : above).push(part);
  }
  under.replaceChildren(...below);
  over.replaceChildren(...above);
}
