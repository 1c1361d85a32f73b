/**
 * The uses of rooms that the rules know, with the words for them, and the name of the next room of a use.
 */

/** @import { Level } from "./types.js" */

/** @type {[string, string][]} use and words; the first twelve are the ones named most */
export const ROOM_USES = [
  ["bedroom", "Bedroom"], ["main_bedroom", "Main bedroom"], ["bath", "Bath"], ["kitchen", "Kitchen"], ["living_room", "Living room"], ["dining", "Dining"],
  ["hall", "Hall"], ["entry", "Entry"], ["closet", "Closet"], ["laundry", "Laundry"], ["office", "Office"], ["garage", "Garage"],
  ["great_room", "Great room"], ["family_room", "Family room"], ["media_room", "Media room"], ["bonus_room", "Bonus room"], ["den", "Den"],
  ["guest_room", "Guest room"], ["nursery", "Nursery"], ["main_bath", "Main bath"], ["powder_room", "Powder room"], ["foyer", "Foyer"], ["mudroom", "Mudroom"],
  ["walk_in_closet", "Walk-in closet"], ["pantry", "Pantry"], ["utility", "Utility"], ["mechanical", "Mechanical"], ["storage", "Storage"], ["stair", "Stair"],
  ["landing", "Landing"], ["basement", "Basement"], ["attic", "Attic"], ["porch", "Porch"], ["patio", "Patio"], ["other", "Other"],
];

/** @param {string} use */
export const useWords = (use) => ROOM_USES.find(([known]) => known === use)?.[1] ?? use.replaceAll("_", " ");

/** "Bedroom", then "Bedroom 2". @param {Level} level @param {string} use */
export function nextRoomName(level, use) {
  const words = use === "other" ? "Room" : useWords(use);
  const names = new Set((level.rooms ?? []).map((room) => room.name));
  if (!names.has(words)) return words;
  let number = 2;
  while (names.has(`${words} ${number}`)) number++;
  return `${words} ${number}`;
}

/** @type {[string, string][]} words in names of rooms that are no use's own, and the use they mean */
const ALSO = [["linen", "closet"], ["wardrobe", "closet"], ["stairs", "stair"], ["stairwell", "stair"], ["powder", "powder_room"], ["wc", "powder_room"], ["living", "living_room"], ["family", "family_room"], ["study", "office"], ["corridor", "hall"], ["shower", "bath"]];

/** The use that a room's name tells: the one named first in it, the longer where two begin alike. @param {string} name */
export function useOfName(name) {
  const words = ` ${name.toLowerCase().replace(/[^a-z]+/g, " ")} `;
  const known = [...ROOM_USES.filter(([use]) => use !== "other").map(([use, text]) => /** @type {[string, string]} */ ([text.toLowerCase().replace(/[^a-z]+/g, " "), use])), ...ALSO];
  const said = known.map(([text, use]) => ({ at: words.indexOf(` ${text} `), long: text.length, use })).filter(({ at }) => at >= 0);
  return said.sort((one, two) => one.at - two.at || two.long - one.long)[0]?.use ?? "other";
}
