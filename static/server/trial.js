/**
 * The drag call: what would be with one device where the pointer is. Only the newest position is sent, one request
 * is in flight at a time, and the answer is painted in the frame after it came.
 */

/** @import { Device } from "../plan/types.js" */
/** @import { Proof } from "./proof.js" */

import { postTrial } from "./api.js";
import { NewestOnly } from "./newest_only.js";

/** @typedef {{level: string, device: Device, asked: number}} Question `asked` is when, in ms of the page's clock */

export class Trial {
  /** @param {string} planId @param {Proof} proof */
  constructor(planId, proof) {
    this.planId = planId;
    this.proof = proof;
    /** @type {NewestOnly<Question>} */
    this.questions = new NewestOnly((question) => this.#put(question));
  }

  /** Ask for a device at its newest place. @param {string} level @param {Device} device */
  ask(level, device) {
    this.questions.ask({ level, device, asked: performance.now() });
  }

  /** The gesture is done: answers that come later are dropped. */
  end() {
    this.questions.end();
  }

  /** @param {Question} question */
  async #put({ level, device, asked }) {
    const answer = await postTrial(this.planId, level, device, this.proof.scale());
    if (!this.questions.open) return;
    this.proof.show(answer); // drawn in the next frame; what is asked for after it runs once that is done
    requestAnimationFrame(() => performance.measure("studbay-trial", { start: asked, end: performance.now() }));
  }
}
