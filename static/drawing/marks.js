/**
 * What a gesture shows while it is under way: ghosts, guides, dimensions, the mark of what was snapped to, and the
 * words beside the pointer.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Point } from "../plan/types.js" */
/** @import { View } from "./view.js" */

import { between, direction, leftOf, plus, times } from "../geometry/points.js";
import { inNextFrame } from "./next_frame.js";
import { patchChildren } from "./patch.js";
import { make, onPaper, segment, through, xy } from "./svg.js";

/** @typedef {"end" | "middle" | "wall" | "perpendicular" | "angle" | "aligned" | "grid" | "corner" | "opening" | "fixture" | "close" | "free"} SnapKind */

/** @type {Record<SnapKind, string>} the mark's path, in pixels */
const SNAP_SHAPES = {
  end: "M-6 -6H6V6H-6Z",
  corner: "M-6 -6H6V6H-6Z",
  close: "M-7 -7H7V7H-7ZM-3 -3H3V3H-3Z",
  middle: "M0 -7L7 6H-7Z",
  wall: "M-6 -6L6 6M-6 6L6 -6",
  perpendicular: "M-6 -7V6H7M-6 0H0V6",
  opening: "M-7 0H7M-7 -4V4M7 -4V4",
  fixture: "M0 -7L7 0L0 7L-7 0Z",
  angle: "M-4 0H4M0 -4V4",
  aligned: "M-4 0H4M0 -4V4",
  grid: "M-4 0H4M0 -4V4",
  free: "",
};

const LETTER = 8; // px: a letter beside the pointer

/** The marks of a page, made by the first gesture that shows some. @param {Desk} desk @returns {Marks} */
export const marksOf = (desk) => (desk.marks ??= new Marks(desk.drawing.layer("marks"), desk.view, /** @type {HTMLElement} */ (document.getElementById("beside"))));

export class Marks {
  /** @param {SVGElement} layer @param {View} view @param {HTMLElement} words the label beside the pointer */
  constructor(layer, view, words) {
    this.layer = layer;
    this.view = view;
    this.words = words;
    /** @type {{at: Point, main: string, more: string} | null} */
    this.said = null;
    /** @type {Element[]} */
    this.shown = [];
    this.filled = "";
    this.ask = inNextFrame(() => this.#draw());
  }

  /** @param {(Element | null)[]} parts */
  show(parts) {
    this.shown = parts.filter((part) => part !== null);
    this.ask();
  }

  clear() {
    this.shown = [];
    this.said = null;
    this.#draw();
  }

  /** Words beside a place of the plan. @param {Point} at @param {string} main @param {string} [more] */
  say(at, main, more = "") {
    this.said = { at, main, more };
    this.ask();
  }

  /** Words that are as before stay as they are: a drag says them in every frame. @param {string} main @param {string} more */
  #fill(main, more) {
    const now = [main, more].join("\n");
    if (this.filled === now) return;
    this.filled = now;
    this.words.replaceChildren(main);
    if (more) this.words.append(Object.assign(document.createElement("small"), { textContent: more }));
  }

  #draw() {
    patchChildren(this.layer, this.shown);
    this.shown = [...this.layer.children]; // what was shown may have lent its parts to what stood there
    this.words.hidden = !this.said?.main && !this.said?.more;
    if (this.said && !this.words.hidden) this.#drawWords(this.said);
  }

  /** @param {{at: Point, main: string, more: string}} said */
  #drawWords({ at, main, more }) {
    const { x, y } = this.view.toScreen(at);
    const { width, height } = this.view.size;
    this.#fill(main, more);
    // Reckoned, not measured: measuring would lay the page out once more in every frame of a drag.
    const [wide, high] = [24 + Math.max(main.length * LETTER, more.length * LETTER * 0.88), (main ? 26 : 4) + (more ? 22 : 0)];
    const left = x + 18 + wide > width - 6 ? x - wide - 18 : x + 18;
    const top = y + 16 + high > height - 6 ? y - high - 14 : y + 16;
    this.words.style.transform = `translate(${Math.round(Math.max(6, left))}px, ${Math.round(Math.max(6, top))}px)`;
  }
}

/** @param {Point} at @param {SnapKind} kind */
export const snapMark = (at, kind) => (SNAP_SHAPES[kind] ? onPaper(at, [make("path", { class: `snap ${kind}`, d: SNAP_SHAPES[kind] })]) : null);

/** @param {Point} p @param {Point} q */
export const guide = (p, q) => make("path", { class: "guide", d: segment(p, q) });

/** @param {Point[]} points @param {boolean} [closed] @param {string} [kind] */
export const sketch = (points, closed = false, kind = "") => make("path", { class: `sketch ${kind}`, d: through(points, closed) });

/** A wall as it would stand. @param {Point} p @param {Point} q @param {number} thickness ft */
export const wallToBe = (p, q, thickness) => make("path", { class: "wall-to-be", d: segment(p, q), "stroke-width": thickness });

/**
 * A dimension line beside p–q with its text; aside in feet to the left.
 * @param {Point} p @param {Point} q @param {number} aside @param {string} text @param {number} [lift] px that the text is moved off the line
 */
export function dimension(p, q, aside, text, lift = 0) {
  const d = direction(p, q);
  const shift = times(leftOf(d), aside);
  const [from, to] = [plus(p, shift), plus(q, shift)];
  const angle = (-Math.atan2(d[1], d[0]) * 180) / Math.PI;
  const upright = angle > 89.99 || angle < -90.01 ? angle + 180 : angle; // words read from below or from the right
  const tick = (/** @type {Point} */ at) => onPaper(at, [make("path", { class: "dimension", d: "M-4 4L4 -4" })]);
  return make("g", { class: "dimensions" }, [
    make("path", { class: "dimension", d: `M${xy(p)}L${xy(from)}L${xy(to)}L${xy(q)}` }),
    tick(from), tick(to),
    onPaper(between(from, to, 0.5), [make("text", { class: "dimension-word", y: -4 + lift, transform: `rotate(${upright.toFixed(2)})` }, [text])]),
  ]);
}

/** A round handle to pull at. @param {Point} at @param {string} what @param {string} id */
export const handle = (at, what, id) => onPaper(at, [make("circle", { class: "reach-area", r: 13 }), make("circle", { class: "grip", r: 5.5 })], { class: "handle", "data-handle": what, "data-id": id });
