/**
 * The drag call: what would be with one device where the pointer is. Only the newest position is sent, one request
 * is in flight at a time, and the answer is painted in the frame after it came. A page that has the proof of the stored
 * plan asks for what the device touches alone.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Device } from "../plan/types.js" */
/** @import { Proof } from "./proof.js" */

import { postTrial } from "./api.js";
import { LiveTrials } from "./live_trials.js";
import { NewestOnly } from "./newest_only.js";
import { postTouched } from "./touched.js";

/** @typedef {{level: string, device: Device, asked: number}} Question `asked` is when, in ms of the page's clock */

export class Trial {
  /** @param {string} planId @param {Proof} proof */
  constructor(planId, proof) {
    this.planId = planId;
    this.proof = proof;
    this.live = new LiveTrials(planId);
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
    const { proof, planId, live } = this;
    if (proof.takesPieces) {
      live.open();
      const { answer, revision } = await (live.isOpen ? live.ask(level, device, proof.scale()) : postTouched(planId, level, device, proof.scale()));
      if (!this.questions.open || !proof.lay(answer, revision)) return;
    } else {
      const answer = await postTrial(planId, level, device, proof.scale());
      if (!this.questions.open) return;
      proof.show(answer);
    }
    whenPainted(() => performance.measure("studbay-trial", { start: asked, end: performance.now() }));
  }
}

/** The trial of a page, made by the first gesture that tries a device. @param {Desk} desk @returns {Trial} */
export const trialOf = (desk) => (desk.trial ??= new Trial(desk.planId, desk.proof));

/** What is shown now is drawn in the next frame; a message sent from it is delivered once that is painted. @param {() => void} then */
function whenPainted(then) {
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = then;
    port2.postMessage(null);
  });
}
