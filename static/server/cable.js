/**
 * The cable schedule of the plan as the server last worked it out, fetched after each save while somebody watches.
 * While a device is dragged its runs are measured where it is: only the newest place is asked for, one at a time.
 */

/** @import { CableAnswer, Pull } from "../plan/cable_types.js" */
/** @import { Device } from "../plan/types.js" */
/** @import { Autosave } from "./autosave.js" */
/** @import { Question } from "./trial.js" */

import { Listened } from "../plan/listened.js";
import { getPulls, postPullsTrial } from "./api.js";
import { NewestOnly } from "./newest_only.js";

export class Cable extends Listened {
  /** @param {string} planId @param {Autosave} autosave */
  constructor(planId, autosave) {
    super();
    this.planId = planId;
    this.autosave = autosave;
    /** @type {CableAnswer | null} */
    this.answer = null;
    /** @type {CableAnswer | null} the stored answer while a tried one stands in for it */
    this.stored = null;
    this.answeredRevision = -1;
    this.watched = false;
    /** @type {string | null} why there is no newer answer */
    this.trouble = null;
    /** @type {NewestOnly<Question>} */
    this.questions = new NewestOnly((question) => this.#put(question));
    autosave.listen(() => autosave.state === "saved" && this.refresh());
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
      [this.answer, this.stored, this.answeredRevision, this.trouble] = [answer, null, revision, null];
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
    }
    this.tell();
  }

  /** Ask how the runs would be with a device at its newest place. @param {string} level @param {Device} device */
  ask(level, device) {
    this.questions.ask({ level, device, since: performance.now() });
  }

  /** The drag is done: later answers are dropped; what was tried stands until the plan is saved, unless it was left. */
  end() {
    this.questions.end();
    if (!this.stored || !this.autosave.isCurrent) return;
    [this.answer, this.stored] = [this.stored, null];
    this.tell();
  }

  /** @param {Question} question */
  async #put({ level, device, since }) {
    const tried = await postPullsTrial(this.planId, level, device);
    if (!this.questions.open || !this.answer) return;
    this.stored ??= this.answer;
    this.answer = { ...this.stored, ...tried };
    this.tell();
    performance.measure("studbay-cable-trial", { start: since, end: performance.now() });
  }

  /** The pulls of a device. @param {string | null} device @returns {Pull[]} */
  pullsOf(device) {
    return (this.answer?.pulls ?? []).filter((pull) => pull.device === device);
  }
}
