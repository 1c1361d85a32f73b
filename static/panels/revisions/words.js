/**
 * Words of revisions: days and moments as people write them, names of revisions, the next letter.
 */

/** @import { History } from "../../server/history.js" */

const DAY = /** @type {const} */ ({ day: "numeric", month: "short", year: "numeric" });

/** A day such as 12 Nov 2026. @param {string} moment a date or a moment of ISO 8601 */
export const dayWords = (moment) => new Date(moment.length === 10 ? `${moment}T12:00` : moment).toLocaleDateString("en-GB", DAY);

/** A day and its time. @param {string} moment */
export const momentWords = (moment) => `${dayWords(moment)}, ${new Date(moment).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" })}`;

/** Today as a date field has it. */
export function today() {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
}

/** What a revision is called in a sentence. @param {History} history @param {string} which its number, or "now" */
export function calledBy(history, which) {
  if (which === "now") return "the working plan";
  const named = history.answer?.revisions.find((entry) => String(entry.revision) === which);
  return named ? `revision ${named.mark}` : `save ${which}`;
}

/** What stands in the triangles: the letter of a revision, else its number. @param {History} history @param {string} which */
export function markOf(history, which) {
  const number = which === "now" ? String(history.autosave.revision) : which;
  return history.answer?.revisions.find((entry) => String(entry.revision) === number)?.mark ?? number;
}

/** The letter or number after the last one given. @param {History} history */
export function nextMark(history) {
  const marks = (history.answer?.revisions ?? []).map((entry) => entry.mark);
  const last = history.answer?.entries.filter((entry) => entry.what === "named").at(-1)?.mark ?? "";
  const taken = (/** @type {string} */ mark) => marks.some((one) => one.toLowerCase() === mark.toLowerCase());
  if (/^\d{1,7}$/.test(last)) {
    let number = Number(last) + 1;
    while (taken(String(number))) number++;
    return String(number);
  }
  const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  return [...letters].find((letter) => !taken(letter)) ?? String(marks.length + 1);
}
