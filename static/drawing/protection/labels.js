/**
 * Words on the drawing of how the house is protected: small signs that keep their size at any zoom, and what keeps
 * them clear of one another, of symbols and of other words.
 */

/** @import { Point } from "../../plan/types.js" */
/** @import { View } from "../view.js" */

import { make, onPaper } from "../svg.js";

const LETTER = 6.4; // px of an 11 px letter, bold
const HIGH = 18; // px
const [FULL, LEAST] = [12, 0.75]; // px a foot at which signs have their full size; the least share of it

/** How much smaller signs are drawn where the zoom leaves little room. @param {number} scale px a foot */
export const signShare = (scale) => Math.min(1, Math.max(LEAST, scale / FULL));

/** @typedef {{at: Point, by: Point}} Spot a place of the plan, and pixels beside it (y downward) */

/**
 * A sign: words in a box, its middle at a place or beside it by pixels.
 * @param {Point} at @param {string} words @param {string} kind class of the sign @param {Point} [by] px
 */
export function sign(at, words, kind, by = [0, 0]) {
  const wide = widthOf(words);
  return onPaper(at, [
    make("rect", { x: by[0] - wide / 2, y: by[1] - HIGH / 2, width: wide, height: HIGH, rx: 4 }),
    make("text", { x: by[0], y: by[1] + 4 }, [words]),
  ], { class: `told ${kind}` });
}

/** @param {string} words */
export const widthOf = (words) => words.length * LETTER + 12;

/** Pixels about a place, in the order in which they are tried: near before far. @param {number} wide px of what is put there @returns {Point[]} */
export const about = (wide) => [22, 36, 52].flatMap((far) => /** @type {Point[]} */ ([[0, -far], [0, far], [wide / 2 + far - 6, 0], [-wide / 2 - far + 6, 0], [wide / 2 + 4, -far], [-wide / 2 - 4, -far], [wide / 2 + 4, far], [-wide / 2 - 4, far]]));

/** What is drawn already, as boxes in pixels from the plan's origin; says which of some spots is free for the next. */
export class Places {
  /** @param {View} view */
  constructor(view) {
    this.view = view;
    this.share = signShare(view.scale);
    /** @type {{left: number, right: number, top: number, bottom: number}[]} */
    this.taken = [];
    this.#keepDrawn();
  }

  /** Words and symbols that the drawing has, as they lie on the screen. */
  #keepDrawn() {
    const frame = this.view.board.getBoundingClientRect();
    const [x, y] = [frame.left + this.view.origin.x, frame.top + this.view.origin.y];
    for (const drawn of this.view.board.querySelectorAll(".device .back, .device .tag, .layer.rooms text, .layer.fixtures .sign")) {
      const box = drawn.getBoundingClientRect();
      if (box.width) this.taken.push({ left: box.left - x, right: box.right - x, top: box.top - y, bottom: box.bottom - y });
    }
  }

  /**
   * The first of some spots where words lie free, which is then taken; null where none is.
   * @param {string} words @param {Spot[]} spots
   */
  forWords(words, spots) {
    return this.#first(spots, widthOf(words) / 2 + 1, HIGH / 2 + 1);
  }

  /** The same for a round mark; the first spot where none is free. @param {number} radius px @param {[Spot, ...Spot[]]} spots */
  forMark(radius, spots) {
    return this.#first(spots, radius, radius) ?? spots[0];
  }

  /** Keep a round place free. @param {Point} at @param {number} radius px */
  keep(at, radius) {
    this.taken.push(this.#box({ at, by: [0, 0] }, radius, radius));
  }

  /** @param {Spot[]} spots @param {number} wide @param {number} high half of it */
  #first(spots, wide, high) {
    for (const spot of spots) {
      const box = this.#box(spot, wide, high);
      if (this.#isCut(spot.at, box)) continue;
      if (this.taken.some((other) => box.left < other.right && other.left < box.right && box.top < other.bottom && other.top < box.bottom)) continue;
      this.taken.push(box);
      return spot;
    }
    return null;
  }

  /** Whether a box runs over the window's edge, beside a place that is in the window. @param {Point} at @param {{left: number, right: number, top: number, bottom: number}} box */
  #isCut(at, box) {
    const { origin, size } = this.view;
    const { x, y } = this.view.toScreen(at);
    if (x < 0 || y < 0 || x > size.width || y > size.height) return false;
    return box.left + origin.x < 0 || box.top + origin.y < 0 || box.right + origin.x > size.width || box.bottom + origin.y > size.height;
  }

  /** The place of the plan at a spot. @param {Spot} spot @returns {Point} */
  onPlan({ at, by }) {
    const feet = this.share / this.view.scale;
    return [at[0] + by[0] * feet, at[1] - by[1] * feet];
  }

  /** @param {Spot} spot @param {number} wide @param {number} high */
  #box({ at, by }, wide, high) {
    const { scale } = this.view;
    const [x, y] = [at[0] * scale + by[0] * this.share, -at[1] * scale + by[1] * this.share];
    const [half, tall] = [wide * this.share, high * this.share];
    return { left: x - half, right: x + half, top: y - tall, bottom: y + tall };
  }
}

/** A sign at the first free spot about a place, or none. @param {Places} places @param {Point} at @param {string} words @param {string} kind */
export function signNear(places, at, words, kind) {
  const spot = places.forWords(words, about(widthOf(words)).map((by) => ({ at, by })));
  return spot ? [sign(at, words, kind, spot.by)] : [];
}
