/**
 * What a way of handling the pointer is; types only. A gesture is an object that is switched on and off, and is told
 * of presses, moves and releases in feet of the plan; the keyboard's cursor gives the same calls.
 *
 * @import { Family, Point } from "../plan/types.js"
 *
 * @typedef {Object} Spot
 * @property {Point} at where in the plan, not snapped
 * @property {number} x pixels from the drawing's corner
 * @property {number} y
 * @property {number} since when the pointer came there, in ms of the page's clock
 * @property {boolean} free a held key (Alt or Shift) suspends snapping
 * @property {boolean} add Shift, Ctrl or Cmd is held: add to the selection
 * @property {boolean} touch
 * @property {string | null} id the thing under the pointer
 * @property {Family | null} family
 * @property {string | null} handle what a handle under the pointer does
 * @property {string | null} pane the pane under the pointer
 *
 * @typedef {Object} Gesture
 * @property {string} hint what to do now, in one sentence
 * @property {string} [asks] what a typed length means; without it digits are not taken
 * @property {() => void} [on]
 * @property {() => void} [off]
 * @property {(spot: Spot) => void} [press]
 * @property {(spot: Spot) => void} [move]
 * @property {(spot: Spot) => void} [ahead] the pointer has moved, and the frame that will show it has not begun: nothing may be drawn
 * @property {(spot: Spot) => void} [release]
 * @property {(spot: Spot) => void} [twice] a double press
 * @property {(feet: number) => void} [typed]
 * @property {(degrees: number) => void} [turn] turn what is held, counter-clockwise
 * @property {() => void} [enter]
 * @property {() => boolean} [escape] whether there was something to leave
 */

export {};
