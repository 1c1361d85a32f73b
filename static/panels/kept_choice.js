/**
 * Small choices of one person, kept in this browser and never sent.
 */

export const TOUR = "studbay-tour"; // "seen", or left

/** @param {string} key @returns {string | null | undefined} null: none yet; undefined: this browser keeps nothing */
export function keptChoice(key) {
  try {
    return localStorage.getItem(key);
  } catch {
    return undefined;
  }
}

/** @param {string} key @param {string} choice */
export function keepChoice(key, choice) {
  try {
    localStorage.setItem(key, choice);
  } catch {
    // What keeps nothing shows it as usual next time.
  }
}
