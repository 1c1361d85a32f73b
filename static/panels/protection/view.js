/**
 * What a view of the protection is: a table beside the drawing and layers on it. Types only.
 *
 * @import { ProtectionAnswer } from "../../plan/protection_types.js"
 *
 * @typedef {Object} View
 * @property {string} name used in the page's styles
 * @property {string} title
 * @property {string} words what it answers, in a line
 * @property {HTMLElement} element
 * @property {(answer: ProtectionAnswer) => void} fill the tables anew, from a new answer or another selection
 * @property {(answer: ProtectionAnswer) => SVGElement[]} under drawn under the walls of the level in view
 * @property {(answer: ProtectionAnswer) => SVGElement[]} over drawn over them
 *
 * @typedef {() => void} Redraw asks for tables and drawing to be made anew
 */

export {};
