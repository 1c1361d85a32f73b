/**
 * The proof of the plan as the server last worked it out, and the overlay of the level in view.
 * A new one is fetched after each save; while a device is tried the trial's answer stands in for it.
 */

/** @import { TrialAnswer } from "./api.js" */
/** @import { CheckAnswer, Device, Pane } from "../plan/types.js" */
/** @import { Pieces, TouchedAnswer } from "./touched.js" */
/** @import { PlanStore } from "../plan/store.js" */
/** @import { Autosave } from "./autosave.js" */

import { Listened } from "../plan/listened.js";
import { getCheck, getOverlay, postTrial } from "./api.js";

const [SOON, LATE] = [2_000, 60_000]; // ms until a check that failed is asked for again: the first time, and at most

/** @extends {Listened<"answer" | "overlay">} */
export class Proof extends Listened {
  /** @param {string} planId @param {PlanStore} store @param {Autosave} autosave @param {() => number} scale px a foot */
  constructor(planId, store, autosave, scale) {
    super();
    this.planId = planId;
    this.store = store;
    this.autosave = autosave;
    this.scale = scale;
    /** @type {CheckAnswer | null} */
    this.answer = null;
    /** @type {Pane[] | null} while a device is tried, the panes that stand otherwise, or all of the level */
    this.tried = null;
    /** @type {{id: string, area_sqft: number}[]} */
    this.triedMotions = [];
    /** @type {string | null} SVG text */
    this.overlay = null;
    /** @type {{levelId: string, scale: string, revision: number} | null} what the overlay draws as it stands in the plan */
    this.base = null;
    /** @type {Pieces | null} laid over the overlay while a device is tried */
    this.pieces = null;
    /** @type {Device | null} the detector whose leaders are drawn */
    this.focus = null;
    /** @type {Pane[]} every pane of the plan, with those being tried */
    this.panes = [];
    this.answeredRevision = -1;
    this.wanted = "";
    this.patience = SOON;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.again = undefined;
    autosave.listen(() => autosave.state === "saved" && this.refresh());
    store.listen((topic) => topic === "level" && this.#leaveLevel());
  }

  /** Another level is in view: marks of the one before would stand at walls that are not theirs. */
  #leaveLevel() {
    this.overlay = null;
    this.base = null;
    this.pieces = null;
    this.tell("overlay");
    this.redraw();
  }

  /** Whether what is shown is the proof of the plan on the page. */
  get isCurrent() {
    return this.autosave.isCurrent && this.answeredRevision === this.autosave.revision;
  }

  /** Fetch the proof of the revision in force, unless it is here. @param {Promise<CheckAnswer>} [asked] its answer, where it is on its way */
  async refresh(asked) {
    const revision = this.autosave.revision;
    if (revision === this.answeredRevision) return;
    clearTimeout(this.again);
    try {
      const coming = asked ?? getCheck(this.planId);
      const drawn = this.redraw(true);
      const answer = await coming;
      if (this.overlay !== null) await drawn; // the glass of two revisions would stand together
      if (revision !== this.autosave.revision) return;
      this.answer = answer;
      this.tried = null; // until now the trial's answer stood in for it
      this.pieces = null;
      this.answeredRevision = revision;
      this.patience = SOON;
      this.tell("answer");
      await drawn;
    } catch {
      // The server is away or busy: the strip goes on telling that it waits, and the question is put again.
      this.again = setTimeout(() => this.refresh(), this.patience);
      this.patience = Math.min(LATE, this.patience * 2);
    }
  }

  /** Draw the leaders of one detector, or of none. @param {Device | null} device */
  focusOn(device) {
    if (device === this.focus) return;
    this.focus = device;
    if (!this.tried) this.redraw();
  }

  /** Fetch the overlay of the level in view for the zoom in force. @param {boolean} [always] */
  async redraw(always = false) {
    const { levelId } = this.store;
    const focus = this.store.committedLevel.devices?.find((device) => device.id === this.focus?.id);
    const base = { levelId, scale: this.scale().toFixed(1), revision: this.autosave.revision };
    const wanted = `${levelId} ${base.scale} ${focus?.id ?? ""} ${base.revision}`;
    if (wanted === this.wanted && !always) return;
    this.wanted = wanted;
    try {
      const overlay = focus
        ? (await postTrial(this.planId, levelId, focus, this.scale())).overlay
        : await getOverlay(this.planId, levelId, this.scale());
      if (wanted !== this.wanted) return;
      this.overlay = overlay;
      this.base = base;
      this.pieces = null;
      this.tell("overlay");
    } catch {
      this.wanted = "";
    }
  }

  /** Whether what stands on the page is the stored plan's, so that a trial need only tell what differs. */
  get takesPieces() {
    const { base } = this;
    return base !== null && base.levelId === this.store.levelId && base.scale === this.scale().toFixed(1)
      && base.revision === this.answeredRevision && base.revision === this.autosave.revision;
  }

  /**
   * Show what a trial touches, where it differs from the revision that stands on the page; tells whether it does.
   * @param {TouchedAnswer} answer @param {number} revision
   */
  lay(answer, revision) {
    if (!this.takesPieces || revision !== this.base?.revision) {
      this.base = null; // somebody else saved: whole answers until the next proof
      return false;
    }
    this.tried = answer.panes;
    this.triedMotions = answer.motions ?? [];
    this.pieces = answer.overlay;
    this.tell("answer");
    return true;
  }

  /** Show a trial's answer. @param {TrialAnswer} answer */
  show(answer) {
    this.tried = answer.panes;
    this.triedMotions = answer.motions ?? [];
    this.overlay = answer.overlay;
    this.base = null;
    this.pieces = null;
    this.wanted = "";
    this.tell("answer");
  }

  /** Leave the trial: the proof of the plan as it stands is shown again. */
  settle() {
    if (!this.tried) return;
    this.tried = null;
    this.pieces = null;
    this.tell("answer");
    this.redraw();
  }

  /** @param {"answer" | "overlay"} topic */
  tell(topic) {
    if (topic === "answer") {
      const tried = new Map(this.tried?.map((pane) => [pane.id, pane]));
      this.panes = (this.answer?.panes ?? []).map((pane) => tried.get(pane.id) ?? pane);
    }
    super.tell(topic);
  }
}
