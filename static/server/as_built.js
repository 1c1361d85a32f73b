/**
 * What was really built, beside the design: fetched while somebody watches, recorded one device at a time. What the
 * server does not have yet is kept in this browser.
 */

/** @import { AsBuiltAnswer, BuiltEntry, BuiltLine } from "../plan/history_types.js" */
/** @import { Autosave } from "./autosave.js" */

import { Listened } from "../plan/listened.js";
import { Refused, call } from "./api.js";

const PREFIX = "studbay-as-built";

export class AsBuilt extends Listened {
  /** @param {string} planId @param {Autosave} autosave */
  constructor(planId, autosave) {
    super();
    this.planId = planId;
    this.autosave = autosave;
    /** @type {AsBuiltAnswer | null} */
    this.answer = null;
    this.trouble = "";
    this.watched = false;
    this.answeredRevision = -1;
    autosave.listen(() => autosave.state === "saved" && this.refresh());
  }

  /** @param {boolean} watched whether the panel is in sight */
  watch(watched) {
    this.watched = watched;
    this.refresh();
  }

  /** Fetch the record beside the plan in force, unless it is here or nobody watches. @param {boolean} [always] */
  async refresh(always = false) {
    const { revision } = this.autosave;
    if (!this.watched || (revision === this.answeredRevision && !always)) return;
    try {
      this.answer = await (await call(`/api/plans/${this.planId}/as-built`)).json();
      this.answeredRevision = revision;
      this.trouble = "";
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
    }
    this.tell();
  }

  /** @param {string} device @returns {BuiltEntry | undefined} */
  entryOf(device) {
    return this.answer?.record.entries.find((entry) => entry.device === device);
  }

  /** @returns {BuiltLine[]} */
  get lines() {
    return this.answer?.devices ?? [];
  }

  /**
   * Record devices; raises where that is refused. Where somebody recorded another device meanwhile both stand; where
   * it was one of these, nothing is overwritten.
   * @param {BuiltEntry[]} entries @param {string[]} [taken] devices whose entries are taken out
   */
  async record(entries, taken = []) {
    const based = new Map([...entries.map((entry) => entry.device), ...taken].map((device) => [device, JSON.stringify(this.entryOf(device))]));
    try {
      await this.#put(entries, taken);
    } catch (error) {
      if (!(error instanceof Refused && error.status === 412)) throw error;
      await this.refresh(true);
      for (const [device, before] of based) {
        if (JSON.stringify(this.entryOf(device)) !== before) throw new Error(`somebody recorded ${device} meanwhile: look at it, then record yours again`);
      }
      await this.#put(entries, taken);
    }
    for (const entry of entries) this.keep(entry.device, null);
    this.tell();
  }

  /** @param {BuiltEntry[]} entries @param {string[]} taken */
  async #put(entries, taken) {
    const others = (this.answer?.record.entries ?? []).filter((old) => !taken.includes(old.device) && !entries.some((entry) => entry.device === old.device));
    const answer = await call(`/api/plans/${this.planId}/as-built`, {
      method: "PUT", body: JSON.stringify({ format: "studbay-as-built/1", plan: this.autosave.store.plan.name, entries: [...others, ...entries] }),
      headers: { "Content-Type": "application/json", "If-Match": `"${this.answer?.edition ?? 0}"` },
    });
    this.answer = await answer.json();
  }

  /** Keep what is typed of a device until it is recorded; null forgets it. @param {string} device @param {Record<string, string> | null} typed */
  keep(device, typed) {
    try {
      if (typed) localStorage.setItem(this.#key(device), JSON.stringify(typed));
      else localStorage.removeItem(this.#key(device));
    } catch {
      // A browser that keeps nothing: the form itself still holds what was typed.
    }
  }

  /** What was typed of a device and not recorded. @param {string} device @returns {Record<string, string> | null} */
  kept(device) {
    try {
      return JSON.parse(localStorage.getItem(this.#key(device)) ?? "null");
    } catch {
      return null;
    }
  }

  /** @param {string} device */
  #key(device) {
    return `${PREFIX} ${this.planId} ${device}`;
  }
}
