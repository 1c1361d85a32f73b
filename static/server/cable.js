/**
 * The cable schedule of the plan as the server last worked it out, fetched after each save while somebody watches.
 */

/** @import { CableAnswer, Pull } from "../plan/cable_types.js" */
/** @import { Autosave } from "./autosave.js" */

import { getPulls } from "./api.js";

export class Cable {
  /** @param {string} planId @param {Autosave} autosave */
  constructor(planId, autosave) {
    this.planId = planId;
    this.autosave = autosave;
    /** @type {CableAnswer | null} */
    this.answer = null;
    this.answeredRevision = -1;
    this.watched = false;
    /** @type {string | null} why there is no newer answer */
    this.trouble = null;
    /** @type {Set<() => void>} */
    this.listeners = new Set();
    autosave.listen(() => autosave.state === "saved" && this.refresh());
  }

  /** @param {() => void} listener */
  listen(listener) {
    this.listeners.add(listener);
  }

  /** @param {boolean} watched whether the schedule is in sight */
  watch(watched) {
    this.watched = watched;
    this.refresh();
  }

  /** Fetch the schedule of the revision in force, unless it is here or nobody watches. */
  async refresh() {
    const { revision } = this.autosave;
    if (!this.watched || revision === this.answeredRevision) return;
    try {
      const answer = await getPulls(this.planId);
      if (revision !== this.autosave.revision) return;
      [this.answer, this.answeredRevision, this.trouble] = [answer, revision, null];
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
    }
    for (const listener of this.listeners) listener();
  }

  /** The pulls of a device. @param {string | null} device @returns {Pull[]} */
  pullsOf(device) {
    return (this.answer?.pulls ?? []).filter((pull) => pull.device === device);
  }
}
