/**
 * The findings, the gravest first; each leads to its thing, and can be accepted with a reason and a name, which are
 * kept with the plan and printed, or be taken back.
 */

/** @import { Finding } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */

import { leadTo } from "../gestures/actions.js";
import { acceptanceOf, withAcceptance, withoutAcceptance } from "../plan/acceptances.js";
import { h } from "./html.js";
import { SEVERITY_WORDS, mark } from "./status.js";
import { compare, copyTools } from "./table_tools.js";

const GRAVITY = { must: 0, should: 1, note: 2 };
/** @type {Record<string, (one: Finding, two: Finding) => number>} */
const ORDERS = {
  "the gravest first": (one, two) => GRAVITY[one.severity] - GRAVITY[two.severity],
  "by rule": (one, two) => compare(one.rule, two.rule),
  "by thing": (one, two) => compare(one.things[0] ?? "", two.things[0] ?? ""),
};
const MOST = 200; // lines at once
const LONGEST = 300; // letters of a reason

/** @param {Desk} desk */
export function findings(desk) {
  const place = h("div", { class: "findings" });
  const order = h("select", { onchange: () => draw() }, ...Object.keys(ORDERS).map((words) => h("option", {}, words)));
  const sorted = () => (desk.proof.answer?.findings ?? []).slice().sort(ORDERS[order.value]);
  const tools = copyTools("Findings", () => [["Gravity", "Rule", "Things", "Finding", "Source"], ...sorted().map((finding) => [SEVERITY_WORDS[finding.severity], finding.rule, finding.things.join(" "), finding.message, finding.source])]);
  /** @type {{key: string, form: HTMLElement} | null} the finding that is being accepted */
  let asked = null;
  let lastName = "";

  const draw = () => {
    if (!desk.proof.answer) return place.replaceChildren(h("p", { class: "quiet" }, "Working…"));
    const list = sorted();
    const accepted = list.filter((finding) => acceptanceOf(desk.store.plan, finding));
    const standing = list.filter((finding) => !accepted.includes(finding));
    const held = place.contains(document.activeElement) ? /** @type {HTMLElement} */ (document.activeElement) : null;
    place.replaceChildren(
      standing.length ? h("ul", {}, ...standing.slice(0, MOST).map((finding) => h("li", {}, line(desk, finding), ...acceptLine(finding)))) : h("p", {}, mark("covered"), " Nothing to mend."),
      ...(standing.length > MOST ? [h("p", { class: "quiet" }, `and ${standing.length - MOST} more`)] : []),
      ...(accepted.length ? [h("h3", {}, `Accepted: ${accepted.length}`), h("ul", {}, ...accepted.slice(0, MOST).map((finding) => h("li", { class: "accepted" }, line(desk, finding), takeBack(finding))))] : []));
    if (held && place.contains(held)) held.focus({ preventScroll: true });
  };

  /** @param {Finding} finding */
  const acceptLine = (finding) => {
    if (finding.severity === "note") return [];
    if (asked?.key === keyOf(finding)) return [asked.form];
    return [h("button", { type: "button", class: "link accept", "aria-label": `Accept: ${finding.message}`, onclick: () => ask(finding) }, "Accept…")];
  };

  /** @param {Finding} finding */
  const ask = (finding) => {
    const reason = h("input", { name: "reason", maxlength: LONGEST, required: true, autocomplete: "off" });
    const name = h("input", { name: "name", maxlength: 80, required: true, autocomplete: "off", value: lastName || (desk.store.plan.site?.designer ?? "") });
    const close = () => {
      asked = null;
      draw();
    };
    const form = h("form", { class: "accept-form", "aria-label": "Accept this finding", onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      if (!reason.value.trim() || !name.value.trim()) return;
      lastName = name.value.trim();
      const plan = withAcceptance(desk.store.plan, finding, reason.value, lastName);
      if (!plan) return desk.say("The notes have no room left: shorten the site's notes, then accept again", true);
      asked = null;
      desk.store.commit(`Accept ${finding.rule}`, plan);
      desk.say("Accepted: kept with the plan and printed; it can be taken back");
      draw();
    }, onkeydown: (/** @type {KeyboardEvent} */ event) => event.key === "Escape" && (event.stopPropagation(), close()) },
    h("label", {}, "Reason", reason), h("label", {}, "Name", name),
    h("div", { class: "buttons" }, h("button", { type: "submit", class: "main" }, "Accept"), h("button", { type: "button", onclick: close }, "Cancel")));
    asked = { key: keyOf(finding), form };
    draw();
    reason.focus();
  };

  /** @param {Finding} finding */
  const takeBack = (finding) => h("button", { type: "button", class: "link accept", "aria-label": `Take back the acceptance of: ${finding.message}`, onclick: () => {
    desk.store.commit(`Take back: ${finding.rule}`, withoutAcceptance(desk.store.plan, finding));
    desk.say("Taken back: the finding stands again");
  } }, "Take back");

  desk.proof.listen((topic) => topic === "answer" && !desk.proof.tried && draw());
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
  return h("div", {}, h("label", { class: "list-order" }, "Order", order), place, tools);
}

/** @param {Finding} finding */
const keyOf = (finding) => `${finding.rule} ${finding.things.join(" ")}`;

/** @param {Desk} desk @param {Finding} finding */
function line(desk, finding) {
  const [first] = finding.things;
  return h("button", { type: "button", class: `finding ${finding.severity}`, onclick: () => first && leadTo(desk, first) },
    mark(finding.severity), h("span", {}, h("b", {}, `${acceptanceOf(desk.store.plan, finding) ? "Accepted" : SEVERITY_WORDS[finding.severity]}: `), finding.message, h("small", {}, finding.source)));
}
