/**
 * Two revisions compared: which two, what changed with a way to each thing, what that does, and the sheets to print.
 */

/** @import { Change, Comparison, PaneProof } from "../../plan/history_types.js" */
/** @import { History } from "../../server/history.js" */
/** @import { Desk } from "../../desk.js" */

import { leadTo } from "../../gestures/actions.js";
import { find, middleOf } from "../../plan/lookup.js";
import { cableLength } from "../cable/words.js";
import { h } from "../html.js";
import { calledBy, momentWords } from "./words.js";

const MOST = 200; // lines at once

/** @param {Desk} desk @param {History} history */
export function comparison(desk, history) {
  const chosen = (/** @type {Event} */ event) => void (event.target instanceof HTMLElement && (event.target.dataset.chosen = "yes"));
  const [from, to] = [h("select", { onchange: chosen }), h("select", { onchange: chosen })];
  const result = h("div", { class: "compared" });
  const compare = h("button", { type: "submit" }, "Compare");
  const element = h("section", { class: "part", "aria-label": "Compare revisions" },
    h("h3", {}, "Compare"),
    h("form", { class: "compare-form", onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      history.compare({ from: from.value, to: to.value });
    } }, h("label", {}, "From", from), h("label", {}, "To", to), compare),
    result);
  const draw = () => {
    fill(from, history, history.pair?.from);
    fill(to, history, history.pair?.to ?? "now");
    const { pair, comparison: answer } = history;
    result.replaceChildren(...(pair ? (answer ? shown(desk, history, answer) : [h("p", { class: "quiet", role: "status" }, history.trouble ? `Not compared: ${history.trouble}.` : "Comparing…")]) : []));
  };
  history.listen(draw);
  draw();
  return element;
}

/** @param {HTMLSelectElement} select @param {History} history @param {string} [chosen] */
function fill(select, history, chosen) {
  const held = chosen ?? (select.dataset.chosen ? select.value : "");
  const named = (history.answer?.revisions ?? []).slice().sort((one, two) => two.revision - one.revision);
  const names = new Set(named.map((entry) => entry.revision));
  const others = history.revisions.filter((line) => !names.has(line.revision)).slice(0, MOST);
  select.replaceChildren(
    h("option", { value: "now" }, "Working plan"),
    ...named.map((entry) => h("option", { value: String(entry.revision) }, `${entry.mark} · ${entry.words || `named by ${entry.by}`}`)),
    h("optgroup", { label: "Other saves" }, ...others.map((line) => h("option", { value: String(line.revision) }, `Save ${line.revision} · ${momentWords(line.saved)}`))));
  const usual = named[0] ?? others.at(-1);
  select.value = held || String(usual?.revision ?? "now");
  if (!select.value) select.value = "now";
}

/** @param {Desk} desk @param {History} history @param {Comparison} answer */
function shown(desk, history, answer) {
  const { from, to } = /** @type {{from: string, to: string}} */ (history.pair);
  const way = `from=${from}&to=${to}`;
  return [
    h("p", { role: "status" }, h("b", {}, `${answer.words[0]?.toUpperCase()}${answer.words.slice(1)}`), ` from ${calledBy(history, from)} to ${calledBy(history, to)}.`),
    answer.changes.length > 0 && h("ol", { class: "changes" }, ...answer.changes.slice(0, MOST).map((change) => h("li", {}, line(desk, change)))),
    answer.changes.length > MOST && h("p", { class: "quiet" }, `and ${answer.changes.length - MOST} more: the change sheet has them all`),
    ...effects(desk, answer),
    h("p", { class: "buttons" },
      h("a", { class: "button", href: `/plans/${desk.planId}/changes?${way}` }, "Change sheet"),
      h("a", { class: "button", href: `/plans/${desk.planId}/changes.pdf?${way}`, download: "" }, "As PDF"),
      h("button", { type: "button", onclick: () => history.compare(null) }, "Put away")),
  ].filter((part) => part !== false);
}

/** @param {Desk} desk @param {Change} change */
function line(desk, change) {
  const words = [h("span", { class: "turn" }, String(change.number)), h("span", {}, h("b", {}, change.name), ` ${change.words}`)];
  const place = change.place ?? change.was_place;
  if (!place) return h("p", { class: "change" }, ...words);
  return h("button", { type: "button", class: "change", "data-change": change.what, onclick: () => lead(desk, change) }, ...words);
}

/** @param {Desk} desk @param {Change} change */
function lead(desk, change) {
  if (find(desk.store.plan, change.id) && change.what !== "removed") return leadTo(desk, change.id);
  const level = change.level ?? change.was_level;
  if (level && desk.store.plan.levels.some((entry) => entry.id === level)) desk.store.showLevel(level);
  desk.selection.set([]);
  desk.view.centre(middleOf(change.place ?? change.was_place ?? []), 12);
  desk.say(`${change.name}: ${change.words}`);
}

/** @param {Desk} desk @param {Comparison} answer */
function effects(desk, answer) {
  const both = (/** @type {{from: number, to: number}} */ { from, to }) => `${cableLength(desk, from)} → ${cableLength(desk, to)}`;
  const { coverage, cable, boxes, zones, findings } = answer;
  const lines = [`Panes covered: ${coverage.covered.from} of ${coverage.panes.from} → ${coverage.covered.to} of ${coverage.panes.to}`];
  lines.push(...answer.panes.slice(0, 12).map((pane) => `${pane.id}: ${proofWords(pane.from)} → ${proofWords(pane.to)}`));
  if (answer.panes.length > 12) lines.push(`and ${answer.panes.length - 12} more panes`);
  lines.push(...cable.map((row) => `Cable ${row.cable}: ${both(row.cut_ft)} to cut${row.bought_ft.from === row.bought_ft.to ? "" : `, ${both(row.bought_ft)} to buy`}`));
  lines.push(...boxes.map((box) => `Boxes of ${box.cable}, ${cableLength(desk, box.size_ft)}: ${box.from} → ${box.to}`));
  if (zones.from !== zones.to) lines.push(`Zones: ${zones.from} → ${zones.to}`);
  const amount = (/** @type {number | null} */ ah) => (ah === null ? "none" : `${ah.toFixed(2)} Ah`);
  lines.push(...answer.battery.map((row) => `Battery of ${row.can}: ${amount(row.with_margin_ah.from)} → ${amount(row.with_margin_ah.to)} asked`));
  lines.push(...findings.new.map((finding) => `New finding (${finding.severity}): ${finding.message}`), ...findings.gone.map((finding) => `No longer found: ${finding.message}`));
  return [h("h4", {}, "What that does"), h("ul", { class: "effects" }, ...lines.map((words) => h("li", {}, words)))];
}

/** @param {PaneProof} proof */
function proofWords(proof) {
  if (!proof) return "none";
  return proof.status === "uncovered" || !proof.device ? proof.status : `${proof.status}${proof.status === "partial" ? ` ${Math.round(proof.fraction * 100)} %` : ""} by ${proof.device}`;
}
