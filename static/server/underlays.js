/**
 * The pictures under the levels: which lies under each, how it is placed, and the server's knowledge of that.
 * Placements are kept beside the plan in the store, so that they are undone with it; every change is sent on.
 */

/** @import { PlanStore } from "../plan/store.js" */
/** @import { Placement } from "../plan/placing.js" */

import { Listened } from "../plan/listened.js";
import { Away, Refused, call } from "./api.js";

/**
 * @typedef {{name: string, media: string, width: number, height: number, per_inch: number | null, address: string}} Picture
 * @typedef {Picture & {level: string, edition: number, placement: Placement, read?: [number, number]}} Underlay
 * @typedef {Readonly<Record<string, Placement>>} Placed by level
 * @typedef {{number: number, width: number, height: number, thumbnail: string | null}} Page
 */

const KEEPER = "underlays";
const RETRY = 3000; // ms

/** @param {string} planId @returns {Promise<Underlay[]>} */
export const getUnderlays = async (planId) => (await call(`/api/plans/${planId}/underlays`)).json();

/** @param {File} file @returns {Promise<Page[]>} */
export const pagesOf = async (file) => (await (await call("/api/pages", { method: "POST", body: file })).json()).pages;

export class Underlays extends Listened {
  /** @param {string} planId @param {PlanStore} store @param {Underlay[]} kept */
  constructor(planId, store, kept) {
    super();
    this.planId = planId;
    this.store = store;
    /** @type {Map<string, Picture>} by digest */
    this.pictures = new Map();
    /** @type {Map<string, number>} by level */
    this.editions = new Map();
    /** @type {Placed} what the server has */
    this.sent = {};
    /** @type {Placement | null} of the level in view, while it is being changed */
    this.draft = null;
    this.trouble = "";
    /** @type {Promise<void> | null} */
    this.sending = null;
    this.#take(kept);
    store.beside = store.besideWith(KEEPER, this.sent);
    store.listen((topic) => {
      if (topic === "beside") void this.#send();
      if (topic === "beside" || topic === "level") this.tell();
    });
  }

  /** @returns {Placed} */
  get all() {
    return this.store.beside[KEEPER] ?? {};
  }

  /** What lies under the level in view, as shown. @returns {Placement | null} */
  get placement() {
    return this.draft ?? this.committed;
  }

  /** @returns {Placement | null} */
  get committed() {
    return this.all[this.store.levelId] ?? null;
  }

  /** @returns {Picture | null} */
  get picture() {
    return this.pictures.get(this.placement?.picture ?? "") ?? null;
  }

  /** Show a placement while it is being changed; null shows the committed one. @param {Placement | null} placement */
  sketch(placement) {
    if (this.draft === placement) return;
    this.draft = placement;
    this.tell();
  }

  /** What stands beside the plan without the picture of a level that goes. @param {string} level */
  besideWithout(level) {
    const { [level]: gone, ...others } = this.all;
    return gone ? this.store.besideWith(KEEPER, others) : this.store.beside;
  }

  /** Place the picture of the level in view, one undo step; null takes it away. @param {string} words @param {Placement | null} placement */
  commit(words, placement) {
    this.draft = null;
    const { [this.store.levelId]: _, ...others } = this.all;
    const placed = placement ? { ...others, [this.store.levelId]: placement } : others;
    this.store.commit(words, this.store.plan, this.store.besideWith(KEEPER, placed));
  }

  /** Lay a file under the level in view, one undo step. @param {File} file @param {number} [page] @returns {Promise<Underlay>} */
  async lay(file, page = 1) {
    const level = this.store.levelId;
    await this.sending;
    const query = new URLSearchParams({ name: file.name, page: String(page) });
    const answer = await call(`${this.#address(level)}?${query}`, { method: "POST", body: file, headers: file.type ? { "Content-Type": file.type } : {} });
    const laid = /** @type {Underlay} */ (await answer.json());
    this.#know(laid);
    this.sent = { ...this.sent, [level]: laid.placement };
    this.store.commit(`Lay ${laid.name} under the plan`, this.store.plan, this.store.besideWith(KEEPER, { ...this.all, [level]: laid.placement }));
    return laid;
  }

  /** @param {string} level */
  #address(level) {
    return `/api/plans/${this.planId}/levels/${encodeURIComponent(level)}/underlay`;
  }

  /** @param {Underlay} underlay */
  #know({ level, edition, placement, ...picture }) {
    this.pictures.set(placement.picture, picture);
    this.editions.set(level, edition);
  }

  /** @param {Underlay[]} kept */
  #take(kept) {
    this.editions.clear();
    for (const underlay of kept) this.#know(underlay);
    this.sent = Object.fromEntries(kept.map((underlay) => [underlay.level, underlay.placement]));
  }

  /** Send what the server does not have, one level after another, until it has all. */
  #send() {
    this.sending ??= this.#sendAll().finally(() => {
      this.sending = null;
      this.tell();
    });
    return this.sending;
  }

  async #sendAll() {
    for (;;) {
      const all = this.all;
      const level = Object.keys({ ...all, ...this.sent }).find((id) => all[id] !== this.sent[id]);
      if (level === undefined) return this.#say("");
      try {
        await this.#sendOne(level, all[level] ?? null);
      } catch (error) {
        if (error instanceof Away) {
          this.#say("The picture's place is not saved: server away");
          await new Promise((resolve) => setTimeout(resolve, RETRY));
        } else if (error instanceof Refused) return this.#takeTheirs(error);
        else throw error;
      }
    }
  }

  /** @param {string} level @param {Placement | null} placement */
  async #sendOne(level, placement) {
    const headers = { "Content-Type": "application/json", "If-Match": `"${this.editions.get(level) ?? 0}"` };
    if (placement) {
      const answer = await call(this.#address(level), { method: "PUT", body: JSON.stringify(placement), headers });
      this.#know(await answer.json());
      this.sent = { ...this.sent, [level]: placement };
      return;
    }
    await call(this.#address(level), { method: "DELETE", headers });
    this.editions.delete(level);
    const { [level]: _, ...others } = this.sent;
    this.sent = others;
  }

  /** The server has another state: it is shown, and told. @param {Refused} refused */
  async #takeTheirs(refused) {
    this.#take(await getUnderlays(this.planId));
    this.store.replaceBeside(KEEPER, this.sent);
    this.#say(`${refused.message}: what the server has is shown`);
  }

  /** @param {string} words */
  #say(words) {
    if (this.trouble === words) return;
    this.trouble = words;
    this.tell();
  }
}
