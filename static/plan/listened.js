/**
 * Something that others listen to: each of them is told when it has changed.
 */

/** @template [Topic=void] */
export class Listened {
  /** @type {Set<(topic: Topic) => void>} */
  listeners = new Set();

  /** @param {(topic: Topic) => void} listener */
  listen(listener) {
    this.listeners.add(listener);
  }

  /** @param {Topic} topic */
  tell(topic) {
    for (const listener of this.listeners) listener(topic);
  }
}
