/**
 * What is selected: ids of things, and the pane that the elevation shows.
 * Ids that are gone from the plan drop out by themselves.
 */

/** @import { PlanStore } from "./store.js" */

import { find } from "./lookup.js";
import { Listened } from "./listened.js";

export class Selection extends Listened {
  /** @param {PlanStore} store */
  constructor(store) {
    super();
    this.store = store;
    /** @type {Set<string>} */
    this.ids = new Set();
    /** @type {string | null} id of the chosen pane */
    this.pane = null;
    store.listen((topic) => {
      if (topic === "plan") this.#prune();
      if (topic === "level") this.set([]);
    });
  }

  /** The one thing selected, or null. */
  get only() {
    return this.ids.size === 1 ? /** @type {string} */ ([...this.ids][0]) : null;
  }

  /** @param {Iterable<string>} ids @param {string | null} [pane] */
  set(ids, pane = null) {
    const next = new Set(ids);
    if (pane === this.pane && next.size === this.ids.size && [...next].every((id) => this.ids.has(id))) return;
    this.ids = next;
    this.pane = pane;
    this.tell();
  }

  /** @param {string} id */
  toggle(id) {
    const next = new Set(this.ids);
    if (!next.delete(id)) next.add(id);
    this.set(next);
  }

  #prune() {
    const left = [...this.ids].filter((id) => find(this.store.plan, id));
    if (left.length !== this.ids.size) this.set(left);
  }
}
