/**
 * Making SVG elements, and points as SVG writes them: one user unit is a foot, SVG y is minus the plan's y.
 */

/** @import { Point } from "../plan/types.js" */

const SVG = "http://www.w3.org/2000/svg";

/** @typedef {Record<string, string | number | null | undefined>} Attributes */

/**
 * @param {string} name @param {Attributes} [attributes] null and undefined are left out
 * @param {(Node | string)[]} [inside]
 * @returns {SVGElement}
 */
export function make(name, attributes = {}, inside = []) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) if (value != null) element.setAttribute(key, String(value));
  element.append(...inside);
  return element;
}

/** @param {number} value */
const short = (value) => String(Math.round(value * 1e4) / 1e4);

/** @param {Point} p */
export const xy = (p) => `${short(p[0])} ${short(-p[1])}`;

/** Path data through points. @param {Point[]} points @param {boolean} [closed] */
export const through = (points, closed = false) => points.map((p, i) => `${i ? "L" : "M"}${xy(p)}`).join("") + (closed ? "Z" : "");

/** @param {Point} p @param {Point} q */
export const segment = (p, q) => `M${xy(p)}L${xy(q)}`;

/** A group that keeps its size in pixels at any zoom. @param {Point} at @param {(Node | string)[]} inside @param {Attributes} [attributes] */
export function onPaper(at, inside, attributes = {}) {
  const paper = make("g", { class: "paper" }, inside);
  const group = make("g", attributes, [paper]);
  putOnPaper(group, at);
  return group;
}

/** Put such a group elsewhere, by one transform for place and size: browsers weigh each in every frame. @param {SVGElement} group @param {Point} at */
export function putOnPaper(group, at) {
  /** @type {SVGElement} */ (group.firstElementChild).style.transform = `translate(${short(at[0])}px, ${short(-at[1])}px) scale(var(--paper))`;
}
