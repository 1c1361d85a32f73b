/**
 * Parts of the page that are fetched when they are first wanted, so that opening a plan asks for little.
 * A part that cannot be fetched says so in its place and can be asked for again.
 */

import { h } from "./html.js";

/**
 * A fetch that is made once; one that failed is made anew.
 * @template T @param {() => Promise<T>} load @returns {() => Promise<T>}
 */
export function once(load) {
  /** @type {Promise<T> | null} */
  let coming = null;
  return () => (coming ??= load().catch((error) => {
    coming = null;
    throw error;
  }));
}

/** @param {HTMLElement} place where the part was to stand @param {() => void} again */
export function tellMissing(place, again) {
  place.hidden = false;
  place.replaceChildren(h("div", { role: "alert" },
    h("p", {}, "This part has not come: the server does not answer. What you have drawn is kept here."),
    h("button", { type: "button", onclick: again }, "Try again")));
}
