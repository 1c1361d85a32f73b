/**
 * The plan being edited: the one truth, its undo steps, the draft that a gesture shows before it is done, the level
 * in view. Everything that draws or saves listens here.
 */

/** @import { Level, Plan } from "./types.js" */

import { levelOf } from "./lookup.js";

const STEPS_KEPT = 500;

/** @typedef {"plan" | "draft" | "level"} Topic */
/** @typedef {{words: string, plan: Plan, levelId: string}} Step */

export class PlanStore {
  /** @param {Plan} plan */
  constructor(plan) {
    /** @type {Plan} as last committed */
    this.plan = plan;
    /** @type {Plan | null} */
    this.draft = null;
    this.levelId = /** @type {Level} */ (plan.levels[0]).id;
    /** @type {Step[]} */
    this.done = [];
    /** @type {Step[]} */
    this.undone = [];
    /** @type {Set<(topic: Topic) => void>} */
    this.listeners = new Set();
  }

  /** What is shown: the draft of a gesture under way, else the plan. */
  get shown() {
    return this.draft ?? this.plan;
  }

  /** The level in view, as shown. */
  get level() {
    return levelOf(this.shown, this.levelId);
  }

  /** The level in view, as committed. */
  get committedLevel() {
    return levelOf(this.plan, this.levelId);
  }

  /** @param {(topic: Topic) => void} listener */
  listen(listener) {
    this.listeners.add(listener);
  }

  /** Show a plan while a gesture is under way; null shows the committed one. @param {Plan | null} plan */
  sketch(plan) {
    if (this.draft === plan) return;
    this.draft = plan;
    this.#tell("draft");
  }

  /** Make a change, one undo step. @param {string} words what was done @param {Plan} plan */
  commit(words, plan) {
    this.draft = null;
    if (plan === this.plan) return this.#tell("draft");
    this.done.push({ words, plan: this.plan, levelId: this.levelId });
    if (this.done.length > STEPS_KEPT) this.done.shift();
    this.undone = [];
    this.#set(plan);
  }

  /** Take another plan for the truth, without a step. @param {Plan} plan */
  replace(plan) {
    this.draft = null;
    this.#set(plan);
  }

  /** @returns {string | null} what was undone */
  undo() {
    return this.#step(this.done, this.undone);
  }

  /** @returns {string | null} what was done again */
  redo() {
    return this.#step(this.undone, this.done);
  }

  /** @param {string} levelId */
  showLevel(levelId) {
    if (levelId === this.levelId) return;
    this.levelId = levelId;
    this.#tell("level");
  }

  /** @param {Step[]} from @param {Step[]} to */
  #step(from, to) {
    this.draft = null;
    const step = from.pop();
    if (!step) return null;
    to.push({ words: step.words, plan: this.plan, levelId: this.levelId });
    const moves = step.levelId !== this.levelId && step.plan.levels.some((level) => level.id === step.levelId);
    if (moves) this.levelId = step.levelId;
    this.#set(step.plan);
    if (moves) this.#tell("level");
    return step.words;
  }

  /** @param {Plan} plan */
  #set(plan) {
    this.plan = plan;
    if (!plan.levels.some((level) => level.id === this.levelId)) {
      this.levelId = /** @type {Level} */ (plan.levels[0]).id;
      this.#tell("level");
    }
    this.#tell("plan");
  }

  /** @param {Topic} topic */
  #tell(topic) {
    for (const listener of this.listeners) listener(topic);
  }
}
