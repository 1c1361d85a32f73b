/**
 * The drag call: what would be with one device where the pointer is. Only the newest position is sent, one request
 * is in flight at a time, and the answer is painted in the frame after it came. A page that has the proof of the stored
 * plan asks for what the device touches alone.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Device } from "../plan/types.js" */
/** @import { Proof } from "./proof.js" */

import { LaidPieces } from "../drawing/laid_pieces.js";
import { postTrial } from "./api.js";
import { LiveTrials } from "./live_trials.js";
import { NewestOnly } from "./newest_only.js";
import { postTouched } from "./touched.js";

/** @typedef {{level: string, device: Device, since: number}} Question */

export class Trial {
  /** @param {string} planId @param {Proof} proof */
  constructor(planId, proof) {
    this.planId = planId;
    this.proof = proof;
    this.said = ""; // what was asked last
    this.live = new LiveTrials(planId);
    /** @type {NewestOnly<Question>} */
    this.questions = new NewestOnly((question) => this.#put(question).catch((why) => {
      this.said = "";
      throw why;
    }));
  }

  /** Whether a question would be asked at once. */
  get isFree() {
    return !this.questions.busy;
  }

  /**
   * Ask for a device at its newest place, unless that was asked last.
   * @param {string} level @param {Device} device @param {number} since when it came there, in ms of the page's clock
   */
  ask(level, device, since) {
    const said = JSON.stringify([level, device]);
    if (said === this.said) return;
    this.said = said;
    this.questions.ask({ level, device, since });
  }

  /** The gesture is done: answers that come later are dropped. */
  end() {
    this.said = "";
    this.questions.end();
  }

  /** @param {Question} question */
  async #put({ level, device, since }) {
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
    whenPainted(() => performance.measure("studbay-trial", { start: since, end: performance.now() }));
  }
}

/** The trial of a page, made by the first gesture that tries a device. @param {Desk} desk @returns {Trial} */
export function trialOf(desk) {
  if (!desk.trial) desk.drawing.overlay.takePieces(LaidPieces);
  return (desk.trial ??= new Trial(desk.planId, desk.proof));
}

/** What is shown now is drawn in the next frame; a message sent from it is delivered once that is painted. @param {() => void} then */
function whenPainted(then) {
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = then;
    port2.postMessage(null);
  });
}
