/**
 * A plan that is not saved yet, kept in this browser until the server has it: one entry a tab.
 * An entry whose tab is gone is taken up by the next tab that opens the plan.
 */

/** @import { Plan } from "../plan/types.js" */

const PREFIX = "studbay-unsaved";

/** @typedef {{base: number, plan: Plan}} Entry */

/** @returns {string} */
function tabId() {
  let id = sessionStorage.getItem(`${PREFIX}-tab`);
  if (!id) {
    id = Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) => byte.toString(16).padStart(2, "0")).join("");
    sessionStorage.setItem(`${PREFIX}-tab`, id);
  }
  return id;
}

export class KeptHere {
  /** @param {string} planId */
  constructor(planId) {
    this.planId = planId;
    this.tab = tabId();
    // The lock is held as long as the tab lives, so that others can tell an entry whose tab is gone.
    navigator.locks?.request(`${PREFIX}-${this.tab}`, () => new Promise(() => {})).catch(() => {});
  }

  /** @param {number} base revision it was made from @param {Plan} plan @returns {boolean} whether the browser took it */
  keep(base, plan) {
    try {
      localStorage.setItem(this.#key(this.tab), JSON.stringify({ base, plan }));
      return true;
    } catch {
      return false;
    }
  }

  forget() {
    localStorage.removeItem(this.#key(this.tab));
  }

  /** The unsaved plan of this tab, or of one that is gone; it is this tab's from now on. @returns {Promise<Entry | null>} */
  async takeUp() {
    const start = this.#key("");
    const tabs = Object.keys(localStorage).filter((key) => key.startsWith(start)).map((key) => key.slice(start.length));
    for (const tab of [this.tab, ...tabs.filter((other) => other !== this.tab)]) {
      if (tab !== this.tab && (await isAlive(tab))) continue;
      const entry = read(start + tab);
      localStorage.removeItem(start + tab);
      if (!entry) continue;
      this.keep(entry.base, entry.plan);
      return entry;
    }
    return null;
  }

  /** @param {string} tab */
  #key(tab) {
    return `${PREFIX}:${this.planId}:${tab}`;
  }
}

/** @param {string} key @returns {Entry | null} */
function read(key) {
  try {
    const entry = JSON.parse(localStorage.getItem(key) ?? "null");
    return entry?.plan?.levels?.length ? entry : null;
  } catch {
    return null;
  }
}

/** @param {string} tab */
async function isAlive(tab) {
  if (!navigator.locks) return true;
  const { held = [] } = await navigator.locks.query();
  return held.some((lock) => lock.name === `${PREFIX}-${tab}`);
}
