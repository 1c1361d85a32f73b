/**
 * Practice templates: what a plan becomes under one, what that changes, and the template that a plan's own values make.
 * Pure; a template's design values are set over the plan's, and those that it does not name stay.
 */

/** @import { Plan } from "./types.js" */

/**
 * @typedef {{company: string, designer: string, address: string, phone: string, license: string, words: string}} Letterhead
 * @typedef {{set: string, paper: string, scale: string}} PrintHabit empty: the program's usual
 * @typedef {{letterhead: Letterhead, habit: PrintHabit}} Stationery
 * @typedef {{name: string, units: "imperial" | "metric" | null, practice: Record<string, unknown>, letterhead: Letterhead,
 *   habit: PrintHabit, usual: boolean}} Template
 * @typedef {{what: string, from: string, to: string}} Change
 */

/** @type {Letterhead} */
export const BARE = { company: "", designer: "", address: "", phone: "", license: "", words: "" };
/** @type {PrintHabit} */
export const NO_HABIT = { set: "", paper: "", scale: "" };
/** @type {Record<keyof Letterhead, string>} */
export const LETTERHEAD_WORDS = { company: "Company", designer: "Designer", address: "Address", phone: "Phone", license: "License no.", words: "A line of your own" };
/** @type {Record<keyof PrintHabit, string>} */
const HABIT_WORDS = { set: "Set", paper: "Paper", scale: "Scale" };

/** @param {Plan} plan @param {Template} template @returns {Plan} */
export function withTemplate(plan, template) {
  const { designer } = template.letterhead;
  return {
    ...plan,
    practice: { ...plan.practice, ...template.practice },
    ...(template.units ? { units: template.units } : {}),
    ...(designer ? { site: { ...plan.site, designer } } : {}),
  };
}

/** @param {Template} template @returns {Stationery} */
export const stationeryOf = ({ letterhead, habit }) => ({ letterhead, habit });

/** Whether a template prints anything of its own. @param {Template} template */
export const hasStationery = (template) => [...Object.values(template.letterhead), ...Object.values(template.habit)].some(Boolean);

/**
 * What a plan would change to under a template, a line each.
 * @param {Plan} plan @param {Stationery} stationery @param {Template} template @param {(key: string, value: unknown) => string} say a design value in words; undefined is the default
 * @returns {Change[]}
 */
export function changesOf(plan, stationery, template, say) {
  /** @type {Change[]} */
  const changes = [];
  const add = (/** @type {string} */ what, /** @type {string} */ from, /** @type {string} */ to) => void (from === to || changes.push({ what, from, to }));
  for (const [key, value] of Object.entries(template.practice)) add(key, say(key, plan.practice?.[key]), say(key, value));
  if (template.units) add("Lengths in", plan.units ?? "imperial", template.units);
  if (template.letterhead.designer) add("Designer", plan.site?.designer ?? "", template.letterhead.designer);
  for (const key of /** @type {(keyof Letterhead)[]} */ (Object.keys(LETTERHEAD_WORDS))) {
    if (key !== "designer") add(`Letterhead: ${LETTERHEAD_WORDS[key].toLowerCase()}`, stationery.letterhead[key], template.letterhead[key]);
  }
  for (const key of /** @type {(keyof PrintHabit)[]} */ (Object.keys(HABIT_WORDS))) add(`Print: ${HABIT_WORDS[key].toLowerCase()}`, stationery.habit[key], template.habit[key]);
  return changes;
}

/** The template that a plan's own values make. @param {Plan} plan @param {Stationery} stationery @param {string} name @returns {Template} */
export function templateOf(plan, stationery, name) {
  const designer = (plan.site?.designer ?? "").split("\n")[0]?.trim().slice(0, 120) ?? "";
  return { name, units: plan.units ?? "imperial", practice: { ...plan.practice }, letterhead: { ...stationery.letterhead, designer }, habit: stationery.habit, usual: false };
}
