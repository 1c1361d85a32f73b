/**
 * The plan being edited: the one truth, its undo steps, the draft that a gesture shows before it is done, the level
 * in view. Everything that draws or saves listens here.
 */

/** @import { Level, Plan } from "./types.js" */

import { levelOf } from "./lookup.js";
import { Listened } from "./listened.js";

const STEPS_KEPT = 500;

/** @typedef {"plan" | "draft" | "level" | "beside"} Topic */
/** @typedef {Readonly<Record<string, any>>} Beside what is kept beside the plan and undone with it, by its keeper's name */
/** @typedef {{words: string, plan: Plan, beside: Beside, levelId: string}} Step */

/** @extends {Listened<Topic>} */
export class PlanStore extends Listened {
  /** @param {Plan} plan */
  constructor(plan) {
    super();
    /** @type {Plan} as last committed */
    this.plan = plan;
    /** @type {Beside} */
    this.beside = {};
    /** @type {Plan | null} */
    this.draft = null;
    this.levelId = /** @type {Level} */ (plan.levels[0]).id;
    /** @type {Step[]} */
    this.done = [];
    /** @type {Step[]} */
    this.undone = [];
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

  /** Show a plan while a gesture is under way; null shows the committed one. @param {Plan | null} plan */
  sketch(plan) {
    if (this.draft === plan) return;
    this.draft = plan;
    this.tell("draft");
  }

  /** Make a change, one undo step. @param {string} words what was done @param {Plan} plan @param {Beside} [beside] */
  commit(words, plan, beside = this.beside) {
    this.draft = null;
    if (plan === this.plan && beside === this.beside) return this.tell("draft");
    this.done.push({ words, plan: this.plan, beside: this.beside, levelId: this.levelId });
    if (this.done.length > STEPS_KEPT) this.done.shift();
    this.undone = [];
    this.#set(plan, beside);
  }

  /** What a keeper has beside the plan, with another value. @param {string} keeper @param {unknown} value @returns {Beside} */
  besideWith(keeper, value) {
    return { ...this.beside, [keeper]: value };
  }

  /** Take what stands beside the plan elsewhere for the truth, without a step. @param {string} keeper @param {unknown} value */
  replaceBeside(keeper, value) {
    this.#set(this.plan, this.besideWith(keeper, value));
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
    this.tell("level");
  }

  /** @param {Step[]} from @param {Step[]} to */
  #step(from, to) {
    this.draft = null;
    const step = from.pop();
    if (!step) return null;
    to.push({ words: step.words, plan: this.plan, beside: this.beside, levelId: this.levelId });
    const moves = step.levelId !== this.levelId && step.plan.levels.some((level) => level.id === step.levelId);
    if (moves) this.levelId = step.levelId;
    this.#set(step.plan, step.beside);
    if (moves) this.tell("level");
    return step.words;
  }

  /** @param {Plan} plan @param {Beside} [beside] */
  #set(plan, beside = this.beside) {
    const aside = beside !== this.beside;
    this.plan = plan;
    this.beside = beside;
    if (!plan.levels.some((level) => level.id === this.levelId)) {
      this.levelId = /** @type {Level} */ (plan.levels[0]).id;
      this.tell("level");
    }
    this.tell("plan");
    if (aside) this.tell("beside");
  }
}
