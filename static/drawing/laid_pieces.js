/**
 * Pieces laid over an overlay while a detector is dragged: each takes the place of the part that it changes, and the
 * part comes back when no answer touches it any more. Text that is as before is not even parsed.
 */

/** @import { Pieces } from "../server/touched.js" */

import { become } from "./patch.js";
import { make } from "./svg.js";

/** @typedef {{part: Element, now: Element, text: string}} Laid the part that was there, and what stands in its place */

export class LaidPieces {
  /**
   * @param {(text: string) => Element[]} parse @param {Element[]} places where the overlay's groups stand
   * @param {(part: Element) => void} dress what the page itself adds to a part
   */
  constructor(parse, places, dress) {
    this.parse = parse;
    this.dress = dress;
    this.places = places;
    /** @type {Map<string, Laid>} by the part's place */
    this.laid = new Map();
  }

  /** @param {Pieces} pieces */
  lay(pieces) {
    const texts = textsOf(pieces);
    for (const place of this.laid.keys()) if (!texts.has(place)) this.#lift(place);
    const fresh = [...texts].filter(([place, text]) => this.laid.get(place)?.text !== text);
    const parts = this.parse(fresh.map(([, text]) => text || "<g/>").join(""));
    fresh.forEach(([place, text], i) => {
      const now = parts[i];
      if (!now) return;
      this.dress(now);
      this.#put(place, text, now);
    });
  }

  /** Every part is as it was. */
  lift() {
    for (const place of [...this.laid.keys()]) this.#lift(place);
  }

  /** @param {string} place @param {string} text @param {Element} now */
  #put(place, text, now) {
    const laid = this.laid.get(place);
    if (laid && become(laid.now, now)) {
      laid.text = text;
      return;
    }
    const part = laid?.part ?? this.#partAt(place);
    (laid?.now ?? part).replaceWith(now);
    this.laid.set(place, { part, now, text });
  }

  /** @param {string} place */
  #lift(place) {
    const laid = this.laid.get(place);
    if (!laid) return;
    this.dress(laid.part); // what the page adds may have changed since it was taken away
    laid.now.replaceWith(laid.part);
    this.laid.delete(place);
  }

  /** The part of the overlay at a place; an empty one where there is none yet. @param {string} place */
  #partAt(place) {
    const found = this.#find(place);
    if (found) return found;
    const empty = make("g");
    this.#find(/** @type {string} */ (place.split(" ")[0]))?.append(empty);
    return empty;
  }

  /** @param {string} place */
  #find(place) {
    for (const group of this.places) {
      const found = group.querySelector(place);
      if (found) return found;
    }
    return null;
  }
}

/** The texts by the selectors of the parts whose place they take. @param {Pieces} pieces @returns {Map<string, string>} */
function textsOf({ panes, marks, reach, motion, leaders }) {
  /** @type {Map<string, string>} */
  const texts = new Map([[".leaders", leaders]]);
  for (const [id, text] of Object.entries(panes)) texts.set(`.glass > [data-pane="${id}"]`, text);
  for (const [id, text] of Object.entries(marks)) texts.set(`.glass > [data-mark="${id}"]`, text);
  for (const [id, text] of Object.entries(reach)) texts.set(`.reach > [data-device="${id}"]`, text);
  for (const [id, text] of Object.entries(motion)) texts.set(`.motion > [data-device="${id}"]`, text);
  return texts;
}
