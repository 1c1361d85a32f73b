/**
 * The history of the plan: its named and approved revisions, how the working plan stands to them, and two revisions
 * compared. Fetched after each save while somebody watches.
 */

/** @import { Comparison, HistoryAnswer, RevisionLine, Standing } from "../plan/history_types.js" */
/** @import { Autosave } from "./autosave.js" */

import { Listened } from "../plan/listened.js";
import { Refused, call } from "./api.js";

/** @typedef {{from: string, to: string}} Pair numbers of revisions, or "now" */

export class History extends Listened {
  /** @param {string} planId @param {Autosave} autosave */
  constructor(planId, autosave) {
    super();
    this.planId = planId;
    this.autosave = autosave;
    /** @type {HistoryAnswer | null} */
    this.answer = null;
    /** @type {Standing | null} */
    this.standing = null;
    /** @type {RevisionLine[]} newest first */
    this.revisions = [];
    /** @type {Pair | null} what is compared */
    this.pair = null;
    /** @type {Comparison | null} */
    this.comparison = null;
    this.trouble = "";
    this.watched = false;
    this.answeredRevision = -1;
    autosave.listen(() => autosave.state === "saved" && this.refresh());
  }

  /** The comparison while it is in sight. */
  get shown() {
    return this.watched ? this.comparison : null;
  }

  /** @param {boolean} watched whether the panel is in sight */
  watch(watched) {
    this.watched = watched;
    this.refresh();
    this.tell();
  }

  /** Fetch what stands, unless it is here or nobody watches. @param {boolean} [always] */
  async refresh(always = false) {
    const { revision } = this.autosave;
    if (!this.watched || (revision === this.answeredRevision && !always)) return;
    await this.#trying(async () => {
      const path = `/api/plans/${this.planId}`;
      const [answer, revisions, standing] = await Promise.all([call(`${path}/history`), call(`${path}/revisions`), call(`${path}/standing`)]);
      [this.answer, this.revisions, this.standing] = [await answer.json(), await revisions.json(), await standing.json()];
      this.answeredRevision = revision;
      if (this.pair && (this.pair.to === "now" || this.pair.from === "now")) await this.#compare(this.pair);
    });
  }

  /** Compare two revisions; null puts the comparison away. @param {Pair | null} pair */
  async compare(pair) {
    this.pair = pair;
    this.comparison = null;
    this.tell();
    if (pair) await this.#trying(() => this.#compare(pair));
  }

  /** @param {Pair} pair */
  async #compare(pair) {
    const answer = await (await call(`/api/plans/${this.planId}/changes?from=${pair.from}&to=${pair.to}`)).json();
    if (this.pair === pair) this.comparison = answer;
  }

  /** Say something of a revision; raises where that is refused. @param {number} revision @param {"name" | "approval" | "withdrawal"} what @param {Record<string, string>} said */
  async enter(revision, what, said) {
    const edition = this.answer?.edition ?? 0;
    try {
      const answer = await call(`/api/plans/${this.planId}/revisions/${revision}/${what}`, {
        method: what === "name" ? "PUT" : "POST", body: JSON.stringify(said),
        headers: { "Content-Type": "application/json", "If-Match": `"${edition}"` },
      });
      this.answer = await answer.json();
    } catch (error) {
      await this.refresh(true);
      if (error instanceof Refused && error.status === 412) throw new Error("somebody entered something meanwhile: look at the list, then enter yours again");
      throw error;
    }
    await this.refresh(true);
    dispatchEvent(new Event("studbay-history")); // the strip tells of approvals too
  }

  /** Save an earlier revision again as the newest, and show it. @param {number} revision @param {string} words */
  async bringBack(revision, words) {
    await call(`/api/plans/${this.planId}/revisions/${revision}/restore`, { method: "POST", headers: { "If-Match": `"${this.autosave.revision}"` } });
    await this.autosave.takeTheirs(words);
  }

  /** @param {() => Promise<void>} work */
  async #trying(work) {
    try {
      await work();
      this.trouble = "";
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
    }
    this.tell();
  }
}
