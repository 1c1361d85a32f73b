/**
 * Words on the drawing of how the house is protected: small signs that keep their size at any zoom, and what keeps
 * them from lying over one another.
 */

/** @import { Point } from "../../plan/types.js" */

import { make, onPaper } from "../svg.js";

const LETTER = 6.3; // px of an 11 px letter, bold
const HIGH = 18; // px

/**
 * A sign: words in a box, its middle at a place or beside it by pixels (y downward).
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

/** Places of signs already drawn, in pixels of the screen; says which of some places for the next is free. */
export class Places {
  /** @param {number} scale px a foot */
  constructor(scale) {
    this.scale = scale;
    /** @type {{left: number, right: number, top: number, bottom: number}[]} */
    this.taken = [];
  }

  /**
   * The first of some places where words lie free, which is then taken; null where none is.
   * @param {string} words @param {{at: Point, by: Point}[]} places
   */
  free(words, places) {
    for (const place of places) {
      const box = this.#box(words, place);
      if (this.taken.some((other) => box.left < other.right && other.left < box.right && box.top < other.bottom && other.top < box.bottom)) continue;
      this.taken.push(box);
      return place;
    }
    return null;
  }

  /** Keep a round place free of signs. @param {Point} at @param {number} radius px */
  keep(at, radius) {
    const [x, y] = [at[0] * this.scale, -at[1] * this.scale];
    this.taken.push({ left: x - radius, right: x + radius, top: y - radius, bottom: y + radius });
  }

  /** @param {string} words @param {{at: Point, by: Point}} place */
  #box(words, { at, by }) {
    const [x, y] = [at[0] * this.scale + by[0], -at[1] * this.scale + by[1]];
    const half = widthOf(words) / 2 + 2;
    return { left: x - half, right: x + half, top: y - HIGH / 2 - 1, bottom: y + HIGH / 2 + 1 };
  }
}
