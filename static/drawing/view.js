/**
 * What part of the plan is in view: the zoom in pixels a foot and where the plan's origin lies on the screen.
 * Zooming never loses the plan: scale is bounded, and some of the drawing always stays in the window.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Planes } from "./planes.js" */
/** @typedef {{left: number, right: number, bottom: number, top: number}} Box in feet */

import { inNextFrame } from "./next_frame.js";
import { markShare } from "./tags.js";
import { Listened } from "../plan/listened.js";

const [LEAST, MOST] = [0.5, 400]; // px a foot
const KEPT = 60; // px of the plan that stay in view

/** Tells once a frame in which the view changed. */
export class View extends Listened {
  /** @param {Planes} planes */
  constructor(planes) {
    super();
    this.planes = planes;
    this.board = planes.board;
    this.scale = 16;
    this.origin = { x: 0, y: 0 };
    /** @type {() => Box | null} */
    this.extent = () => null;
    this.ask = inNextFrame(() => {
      this.apply();
      this.tell();
    });
    this.size = { width: 0, height: 0 };
    this.measure();
  }

  /** Take the drawing's size anew. Asking for it in every frame would lay the page out in every frame. */
  measure() {
    this.size = { width: this.board.clientWidth || 800, height: this.board.clientHeight || 600 };
  }

  /** @param {number} x @param {number} y pixels from the drawing's corner @returns {Point} */
  toPlan(x, y) {
    return [(x - this.origin.x) / this.scale, (this.origin.y - y) / this.scale];
  }

  /** @param {Point} p */
  toScreen(p) {
    return { x: this.origin.x + p[0] * this.scale, y: this.origin.y - p[1] * this.scale };
  }

  /** @param {number} factor @param {number} x @param {number} y pixels: the place that stays where it is */
  zoom(factor, x, y) {
    const [px, py] = this.toPlan(x, y);
    this.scale = Math.min(MOST, Math.max(LEAST, this.scale * factor));
    this.origin = { x: x - px * this.scale, y: y + py * this.scale };
    this.#changed();
  }

  /** @param {number} factor */
  zoomMiddle(factor) {
    this.zoom(factor, this.size.width / 2, this.size.height / 2);
  }

  /** @param {number} dx @param {number} dy pixels */
  pan(dx, dy) {
    this.origin = { x: this.origin.x + dx, y: this.origin.y + dy };
    this.#changed();
  }

  /** Show a whole box with some margin. @param {Box | null} box @param {number} [most] px a foot at most */
  fit(box, most = 60) {
    const { width, height } = this.size;
    const shown = box ?? { left: -2, right: 42, bottom: -2, top: 28 };
    const margin = Math.min(64, width * 0.07);
    this.scale = Math.min(most, Math.max(LEAST, Math.min((width - 2 * margin) / Math.max(shown.right - shown.left, 4), (height - 2 * margin) / Math.max(shown.top - shown.bottom, 4))));
    this.centre([(shown.left + shown.right) / 2, (shown.bottom + shown.top) / 2]);
  }

  /** Bring a place to the middle; zoom in only where it would be too small to see. @param {Point} p @param {number} [least] px a foot */
  centre(p, least = 0) {
    const { width, height } = this.size;
    this.scale = Math.max(this.scale, least);
    this.origin = { x: width / 2 - p[0] * this.scale, y: height / 2 + p[1] * this.scale };
    this.#changed();
  }

  #changed() {
    this.#keepSome();
    this.ask();
  }

  apply() {
    this.planes.transform(`translate(${this.origin.x.toFixed(2)} ${this.origin.y.toFixed(2)}) scale(${this.scale})`);
    this.board.style.setProperty("--px", String(1 / this.scale));
    this.board.style.setProperty("--mark", String(markShare(this.scale)));
  }

  #keepSome() {
    const box = this.extent();
    if (!box) return;
    const { width, height } = this.size;
    const low = this.toScreen([box.left, box.top]);
    const high = this.toScreen([box.right, box.bottom]);
    this.origin.x += Math.max(0, KEPT - high.x) - Math.max(0, low.x - (width - KEPT));
    this.origin.y += Math.max(0, KEPT - high.y) - Math.max(0, low.y - (height - KEPT));
  }
}
