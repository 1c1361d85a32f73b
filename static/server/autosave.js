/**
 * Saves the plan after every change and tells how that stands; what the server does not have is kept here.
 * Where another edit came first nothing is overwritten: the page asks which plan is to stand.
 */

/** @import { PlanStore } from "../plan/store.js" */
/** @import { Plan } from "../plan/types.js" */
/** @import { Fault } from "./api.js" */

import { Listened } from "../plan/listened.js";
import { Away, Refused, addPlan, getPlan, newestRevision, putPlan } from "./api.js";
import { KeptHere } from "./kept_here.js";

const PAUSE = 200; // ms after the last change
const RETRIES = [1000, 2000, 4000, 8000, 15000]; // ms

/** @typedef {"saved" | "unsaved" | "saving" | "away" | "refused" | "conflict"} SavedState */

export class Autosave extends Listened {
  /** @param {string} planId @param {PlanStore} store @param {number} revision */
  constructor(planId, store, revision) {
    super();
    this.planId = planId;
    this.store = store;
    this.revision = revision;
    /** @type {Plan} */
    this.savedPlan = store.plan;
    this.kept = new KeptHere(planId);
    this.keptHere = true;
    /** @type {SavedState} */
    this.state = "saved";
    /** @type {Fault[]} */
    this.faults = [];
    this.reason = "";
    /** What people should be told once, though nothing is wrong. */
    this.news = "";
    this.tries = 0;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.timer = undefined;
    /** @type {Promise<void> | null} */
    this.running = null;
    store.listen((topic) => topic === "plan" && this.#changed());
    addEventListener("focus", () => this.#look());
    addEventListener("online", () => this.state === "away" && this.now());
    addEventListener("beforeunload", (event) => {
      if (this.state !== "saved" && !this.keptHere) event.preventDefault();
    });
  }

  /** Whether the server's plan is the one on the page. */
  get isCurrent() {
    return this.store.plan === this.savedPlan;
  }

  /** Take up what an earlier tab could not save. */
  async begin() {
    const entry = await this.kept.takeUp();
    if (!entry) return;
    if (JSON.stringify(entry.plan) === JSON.stringify(this.savedPlan)) return this.kept.forget();
    const newest = this.revision;
    this.revision = entry.base;
    if (newest !== entry.base) this.state = "conflict";
    this.store.commit("Take up what was not saved", entry.plan);
    if (newest !== entry.base) this.#turn("conflict");
    else await this.now();
  }

  /** Save without waiting; settles when the server has the plan or cannot take it. @returns {Promise<void>} */
  async now() {
    clearTimeout(this.timer);
    while (this.running) await this.running; // another that waited may have begun one
    if (this.state === "conflict" || this.isCurrent) return;
    this.running = this.#save().finally(() => (this.running = null));
    return this.running;
  }

  /** Of two plans: keep this one as a new revision on top of the other's. */
  async keepMine() {
    this.revision = (await getPlan(this.planId)).revision;
    this.#turn("unsaved");
    await this.now();
  }

  /** Of two plans: take the server's; this one stays in reach as an undo step. @param {string} [words] of that step */
  async takeTheirs(words = "Take the other plan") {
    const theirs = await getPlan(this.planId);
    this.revision = theirs.revision;
    this.savedPlan = theirs.plan;
    this.store.commit(words, theirs.plan);
    this.#settle();
  }

  /** Of two plans: save this one as a plan of its own. @returns {Promise<string>} its id */
  async saveCopy() {
    const copy = await addPlan({ ...this.store.plan, name: `${this.store.plan.name.slice(0, 112)} (copy)` });
    this.kept.forget();
    return copy.id;
  }

  #changed() {
    if (this.isCurrent) {
      if (this.state === "unsaved" || this.state === "refused") this.#settle();
      return;
    }
    this.keptHere = this.kept.keep(this.revision, this.store.plan);
    if (this.state === "conflict") return;
    this.tries = 0;
    if (this.state !== "saving") this.#turn(this.state === "away" ? "away" : "unsaved");
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.now(), PAUSE);
  }

  async #save() {
    const plan = this.store.plan;
    if (this.state !== "away") this.#turn("saving");
    try {
      this.revision = await putPlan(this.planId, plan, this.revision);
      this.savedPlan = plan;
      this.tries = 0;
      if (this.isCurrent) return this.#settle();
      this.kept.keep(this.revision, this.store.plan);
      this.#turn("unsaved");
      this.#again(0);
    } catch (error) {
      this.#failed(error);
    }
  }

  #settle() {
    clearTimeout(this.timer);
    this.kept.forget();
    this.faults = [];
    this.#turn("saved");
  }

  /** @param {unknown} error */
  #failed(error) {
    if (!(error instanceof Away || error instanceof Refused)) throw error;
    this.reason = error.message;
    if (error instanceof Refused && error.status === 412) return this.#turn("conflict");
    if (error instanceof Refused && error.status < 500 && error.status !== 429) {
      this.faults = error.faults;
      return this.#turn("refused");
    }
    this.#turn("away");
    this.#again(RETRIES[Math.min(this.tries++, RETRIES.length - 1)] ?? 15000);
  }

  /** @param {number} wait ms */
  #again(wait) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.now(), wait);
  }

  /** On coming back to the tab: has another edit come in meanwhile? */
  async #look() {
    if (this.state !== "saved") return;
    const newest = await newestRevision(this.planId, this.revision);
    if (newest === this.revision || this.state !== "saved" || this.running) return;
    this.news = "This plan was changed elsewhere: the newer one is shown, undo brings yours back";
    await this.takeTheirs();
  }

  /** @param {SavedState} state */
  #turn(state) {
    this.state = state;
    this.tell();
  }
}
