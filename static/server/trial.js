/**
 * The drag call: what would be with one device where the pointer is. Only the newest position is sent, one request
 * is in flight at a time, and the answer is painted in the frame after it came.
 */

/** @import { Device } from "../plan/types.js" */
/** @import { Proof } from "./proof.js" */

import { postTrial } from "./api.js";

export class Trial {
  /** @param {string} planId @param {Proof} proof */
  constructor(planId, proof) {
    this.planId = planId;
    this.proof = proof;
    /** @type {{level: string, device: Device, asked: number} | null} */
    this.next = null;
    this.busy = false;
    this.open = false;
  }

  /** Ask for a device at its newest place. @param {string} level @param {Device} device */
  ask(level, device) {
    this.open = true;
    this.next = { level, device, asked: performance.now() };
    if (!this.busy) this.#send();
  }

  /** The gesture is done: answers that come later are dropped. */
  end() {
    this.open = false;
    this.next = null;
  }

  async #send() {
    const sent = this.next;
    if (!sent) return;
    this.next = null;
    this.busy = true;
    try {
      const answer = await postTrial(this.planId, sent.level, sent.device, this.proof.scale());
      if (!this.open) return;
      this.proof.show(answer); // drawn in the next frame; what is asked for after it runs once that is done
      requestAnimationFrame(() => performance.measure("studbay-trial", { start: sent.asked, end: performance.now() }));
    } catch {
      // Away or refused: the device still moves, and the next position asks again.
    } finally {
      this.busy = false;
      if (this.next) this.#send();
    }
  }
}
