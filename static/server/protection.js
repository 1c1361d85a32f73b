/**
 * How the house is protected, as the server last worked it out: asked for only while somebody looks at it, and after
 * a save, never while a device is dragged.
 */

/** @import { ProtectionAnswer } from "../plan/protection_types.js" */
/** @import { Autosave } from "./autosave.js" */

import { Listened } from "../plan/listened.js";
import { getProtection } from "./api.js";

export class Protection extends Listened {
  /** @param {string} planId @param {Autosave} autosave */
  constructor(planId, autosave) {
    super();
    this.planId = planId;
    this.autosave = autosave;
    /** @type {ProtectionAnswer | null} */
    this.answer = null;
    this.answeredRevision = -1;
    this.watched = false;
    this.asking = false;
    /** @type {string | null} why there is no newer answer */
    this.trouble = null;
    autosave.listen(() => {
      if (autosave.state === "saved") this.refresh();
      else if (this.watched) this.tell();
    });
  }

  /** Whether the answer is of the plan on the page. */
  get isCurrent() {
    return this.autosave.isCurrent && this.answeredRevision === this.autosave.revision;
  }

  /** @param {boolean} watched whether the answer is in sight */
  watch(watched) {
    this.watched = watched;
    if (watched) this.refresh();
  }

  /** Fetch the answer for the revision in force, unless it is here, is asked for, or nobody looks. */
  async refresh() {
    if (!this.watched || this.asking) return;
    const { revision } = this.autosave;
    if (revision === this.answeredRevision) return this.tell();
    this.asking = true;
    this.tell();
    try {
      this.answer = await getProtection(this.planId);
      [this.answeredRevision, this.trouble] = [revision, null];
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
    }
    this.asking = false;
    if (!this.trouble && revision !== this.autosave.revision) this.refresh();
    else this.tell();
  }
}
