/**
 * How an opening is watched, by mark and word as well as by colour: one table for the drawing and the tables beside it.
 */

/** @import { Watch } from "../../plan/protection_types.js" */

import { make } from "../svg.js";

/** @type {Record<Watch, {words: string, mark: string, kind: string}>} marks in a box from -1 to 1, y downward */
export const WATCHES = {
  "at the opening": { words: "guarded", mark: "M-.9 .05L-.25 .75L.95 -.85", kind: "at" },
  inside: { words: "inside only", mark: "M0 -.9A.9 .9 0 1 1 -.01 -.9M-.15 0H.15", kind: "inside" },
  nothing: { words: "unguarded", mark: "M-.8 -.8L.8 .8M-.8 .8L.8 -.8", kind: "nothing" },
};

/** The mark for a line of text. @param {Watch} watch */
export const watchMark = (watch) => make("svg", { viewBox: "-1.2 -1.2 2.4 2.4", class: `mark watch-${WATCHES[watch].kind}`, "aria-hidden": "true" }, [make("path", { d: WATCHES[watch].mark })]);
