/**
 * Which entries answer typed words, the best first. Pure: text in, entries out.
 */

/**
 * @typedef {Object} Entry
 * @property {string} group what sort of thing it is: Device, Finding, Tool…
 * @property {string} title what it is called
 * @property {string} more where it is, or what it says
 * @property {string[]} [names] what else it answers to: its id, kind, key
 * @property {() => void} go lead to it, or do it
 */

/** Small letters without accents. @param {string} text */
export const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/**
 * Entries that answer every typed word, by how well: its whole name, its start, the start of a word, anything.
 * @param {Entry[]} entries @param {string} typed @param {number} most @returns {Entry[]}
 */
export function ranked(entries, typed, most) {
  const words = plain(typed).split(/\s+/).filter(Boolean);
  if (!words.length) return [];
  return entries.map((entry, order) => ({ entry, order, points: pointsOf(entry, words) }))
    .filter(({ points }) => points > 0)
    .sort((one, two) => two.points - one.points || one.order - two.order)
    .slice(0, most)
    .map(({ entry }) => entry);
}

/** @param {Entry} entry @param {string[]} words @returns {number} 0 where a word is nowhere in it */
function pointsOf(entry, words) {
  const names = [entry.title, ...(entry.names ?? [])].map(plain);
  const rest = plain(`${entry.group} ${entry.more}`);
  const all = words.join(" ");
  let points = names.includes(all) ? 100 : names.some((name) => name.startsWith(all)) ? 40 : 0;
  for (const word of words) {
    if (names.some((name) => startsWord(name, word))) points += 8;
    else if (names.some((name) => name.includes(word))) points += 4;
    else if (startsWord(rest, word)) points += 2;
    else if (rest.includes(word)) points += 1;
    else return 0;
  }
  return points;
}

/** @param {string} text @param {string} word */
const startsWord = (text, word) => text.split(/[^\p{L}\p{N}.]+/u).some((part) => part.startsWith(word));
