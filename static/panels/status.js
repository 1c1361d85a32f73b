/**
 * The states of glass and the weights of findings: word and mark of each, never colour alone.
 */

/** @import { Severity, Status } from "../plan/types.js" */

import { make } from "../drawing/svg.js";

/** @type {Record<Status, string>} */
export const STATUS_WORDS = { covered: "covered", partial: "partly covered", uncovered: "uncovered" };
/** @type {Record<Severity, string>} */
export const SEVERITY_WORDS = { must: "Mend", should: "Better", note: "Note" };

/** @type {Record<Status | Severity, string>} marks in a box from -1 to 1, y downward; the same as on the drawing */
const MARKS = {
  covered: "M-.9 .05L-.25 .75L.95 -.85",
  partial: "M0 -.9L.95 .8L-.95 .8ZM0 -.35V.35",
  uncovered: "M-.8 -.8L.8 .8M-.8 .8L.8 -.8",
  must: "M0 -.95L.95 0L0 .95L-.95 0ZM0 -.4V.1M0 .4V.45",
  should: "M-.9 0A.9 .9 0 1 1 .9 0A.9 .9 0 1 1 -.9 0M0 -.45V.1M0 .4V.45",
  note: "M-.8 -.5H.8M-.8 0H.8M-.8 .5H.3",
};

/** @param {Status | Severity} state */
export const mark = (state) => make("svg", { viewBox: "-1.2 -1.2 2.4 2.4", class: `mark ${state}`, "aria-hidden": "true" }, [make("path", { d: MARKS[state] })]);
