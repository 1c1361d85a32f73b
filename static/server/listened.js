/**
 * Something that others listen to: each of them is told when it has changed.
 */

export class Listened {
  /** @type {Set<() => void>} */
  listeners = new Set();

  /** @param {() => void} listener */
  listen(listener) {
    this.listeners.add(listener);
  }

  tell() {
    for (const listener of this.listeners) listener();
  }
}
