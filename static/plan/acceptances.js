/**
 * Findings accepted with a reason and a name, as lines of the plan's notes: `accepted motion.not_in_corner M2: chimney
 * in the corner - J. Ash`. The server reads the same lines; in a device's own note the things may be left out.
 */

/** @import { Device, Finding, Plan } from "./types.js" */

import { changeThing, withLevel } from "./edits.js";
import { find } from "./lookup.js";

const MOST = 2000; // letters of a note

const LINE = /^\s*accepted\s+([a-z_]+\.[a-z_0-9]+)((?:[\s,]+[A-Za-z0-9._/-]+)*)\s*:\s*(.*\S)\s+[-–—]\s+(\S.*?)\s*$/i;

/** @typedef {{reason: string, name: string}} Acceptance */

/** @param {string} line @param {Finding} finding @param {string[]} speaker things that a line without things speaks of @returns {Acceptance | null} */
function read(line, finding, speaker) {
  const said = LINE.exec(line);
  if (!said || said[1]?.toLowerCase() !== finding.rule) return null;
  const named = (said[2] ?? "").split(/[\s,]+/).filter(Boolean);
  const things = named.length ? named : speaker;
  const covers = things.length ? things.every((thing) => finding.things.includes(thing)) : !finding.things.length;
  return covers ? { reason: said[3] ?? "", name: said[4] ?? "" } : null;
}

/** The notes of a plan in which a finding may be accepted: the site's and those of its devices. @param {Plan} plan @returns {{notes: string, speaker: string[]}[]} */
const notesOf = (plan) => [
  { notes: plan.site?.notes ?? "", speaker: [] },
  ...plan.levels.flatMap((level) => (level.devices ?? []).filter((device) => device.note).map((device) => ({ notes: device.note ?? "", speaker: [device.id] }))),
];

/** Who accepted a finding, and why; null where nobody has. @param {Plan} plan @param {Finding} finding */
export function acceptanceOf(plan, finding) {
  for (const { notes, speaker } of notesOf(plan)) {
    for (const line of notes.split("\n")) {
      const found = read(line, finding, speaker);
      if (found) return found;
    }
  }
  return null;
}

/**
 * A plan in which a finding is accepted: in the site's notes, or where these are full in a note of one of its devices.
 * @param {Plan} plan @param {Finding} finding @param {string} reason @param {string} name
 * @returns {Plan | null} null where no note has room left
 */
export function withAcceptance(plan, finding, reason, name) {
  const line = `accepted ${[finding.rule, ...finding.things].join(" ")}: ${plain(reason)} - ${plain(name).replace(/\s[-–—]\s/g, " ")}`;
  const notes = below(plan.site?.notes, line);
  if (notes.length <= MOST) return { ...plan, site: { ...plan.site, notes } };
  const found = finding.things.map((thing) => find(plan, thing)).find((one) => one?.family === "devices" && below(one.thing.note, line).length <= MOST);
  return found?.family === "devices" ? changeThing(plan, found.thing.id, { note: below(found.thing.note, line) }) : null;
}

/** @param {string | null | undefined} notes @param {string} line */
const below = (notes, line) => (notes?.trim() ? `${notes.trimEnd()}\n${line}` : line);

/** A plan in which a finding stands again, wherever it was accepted. @param {Plan} plan @param {Finding} finding @returns {Plan} */
export function withoutAcceptance(plan, finding) {
  const without = (/** @type {string} */ notes, /** @type {string[]} */ speaker) => notes.split("\n").filter((line) => !read(line, finding, speaker)).join("\n");
  let next = plan.site?.notes ? { ...plan, site: { ...plan.site, notes: without(plan.site.notes, []) } } : plan;
  for (const level of plan.levels) {
    if (!(level.devices ?? []).some((device) => device.note && without(device.note, [device.id]) !== device.note)) continue;
    next = withLevel(next, level.id, (old) => ({ ...old, devices: (old.devices ?? []).map((device) => withNote(device, without(device.note ?? "", [device.id]))) }));
  }
  return next;
}

/** @param {Device} device @param {string} note @returns {Device} */
const withNote = (device, note) => (device.note == null || device.note === note ? device : { ...device, note });

/** One line. @param {string} words */
const plain = (words) => words.replace(/\s+/g, " ").trim();
