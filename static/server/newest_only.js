/**
 * Questions that a drag asks faster than they are answered: one is in flight at a time, and of those that come
 * meanwhile only the newest is asked after it. A question that fails is dropped: the next one asks again.
 */

/** @template T */
export class NewestOnly {
  /** @param {(question: T) => Promise<void>} put asks one question; looks at `open` before it uses the answer */
  constructor(put) {
    this.put = put;
    /** @type {T | null} */
    this.next = null;
    this.busy = false;
    this.open = false;
  }

  /** @param {T} question */
  ask(question) {
    this.open = true;
    this.next = question;
    if (!this.busy) this.#send();
  }

  /** The drag is done: what comes later is not wanted. */
  end() {
    this.open = false;
    this.next = null;
  }

  async #send() {
    const question = this.next;
    if (question === null) return;
    this.next = null;
    this.busy = true;
    try {
      await this.put(question);
    } catch {
      // Away or refused: the device still moves, and the next position asks again.
    } finally {
      this.busy = false;
      if (this.next !== null) this.#send();
    }
  }
}
