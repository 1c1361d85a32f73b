/**
 * The named revisions, newest first, with what can be done to each; and every other save, folded away.
 */

/** @import { NamedRevision, RevisionLine } from "../../plan/history_types.js" */
/** @import { History } from "../../server/history.js" */
/** @import { Desk } from "../../desk.js" */

import { h } from "../html.js";
import { askForm } from "./forms.js";
import { calledBy, dayWords, momentWords, nextMark, today } from "./words.js";

const MOST = 60; // saves at once

/** @typedef {{key: string, form: HTMLElement, focus: () => void} | null} Open the form that is open, and where */

/** @param {Desk} desk @param {History} history */
export function list(desk, history) {
  const [head, place, saves] = [h("div"), h("ul", { class: "named" }), h("ul", { class: "plain-list" })];
  const others = h("details", { class: "saves" }, h("summary", {}, "Every save"), saves);
  const element = h("div", {}, head, place, others);
  /** @type {Open} */
  let open = null;

  /** @param {string} key @param {(close: () => void) => {form: HTMLElement, focus: () => void}} make */
  const ask = (key, make) => {
    const opener = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.opens : undefined;
    open = { key, ...make(() => {
      open = null;
      draw();
      const back = opener ? element.querySelector(`[data-opens="${opener}"]`) : null;
      if (back instanceof HTMLElement) back.focus();
    }) };
    draw();
    open.focus();
  };
  /** @param {string} key @param {string} words @param {() => void} act @param {string} [said] for screen readers */
  const button = (key, words, act, said) => h("button", { type: "button", "data-opens": key, "aria-label": said ?? null, onclick: act }, words);
  /** @param {string} key */
  const formAt = (key) => (open?.key === key ? open.form : null);

  /** @param {number | null} revision null names the working plan @param {NamedRevision} [named] */
  const name = (revision, named) => ask(`name ${revision ?? "now"}`, (close) => askForm(
    revision === null ? "Name the plan as it stands" : named ? `Name revision ${named.mark} anew` : `Name save ${revision}`,
    "A named revision stays in this list and can be compared, approved and brought back.",
    [
      { key: "mark", label: "Letter or number", value: named?.mark ?? nextMark(history), most: 8 },
      { key: "words", label: "Issued for", value: named?.words ?? "", most: 200, optional: true },
      { key: "by", label: "Your name", value: named?.by ?? history.answer?.revisions.at(-1)?.by ?? desk.store.plan.site?.designer ?? "" },
    ],
    "Name", async (said) => {
      await history.enter(revision ?? (await savedRevision(desk)), "name", said);
      desk.say(`Revision ${said["mark"]} is named`);
    }, close));

  /** @param {NamedRevision} named */
  const approve = (named) => ask(`approve ${named.revision}`, (close) => askForm(
    `Approve revision ${named.mark}`,
    "It is locked as it is: never changed, never renamed. You can go on drawing; that makes later revisions, and the page and every printed set say how they differ from what was approved.",
    [
      { key: "by", label: "Approved by", value: (desk.store.plan.site?.client ?? "").split("\n")[0]?.slice(0, 120) ?? "" },
      { key: "on", label: "On", type: "date", value: today() },
      { key: "words", label: "Remark", most: 200, optional: true },
    ],
    "Approve and lock", async (said) => {
      await history.enter(named.revision, "approval", said);
      desk.say(`Revision ${named.mark} is approved and locked`);
    }, close));

  /** @param {NamedRevision} named */
  const withdraw = (named) => ask(`withdraw ${named.revision}`, (close) => askForm(
    `Withdraw the approval of revision ${named.mark}`,
    "The approval stays in the history; the withdrawal is entered after it.",
    [{ key: "by", label: "Withdrawn by" }, { key: "words", label: "Reason", most: 200 }],
    "Withdraw", async (said) => {
      await history.enter(named.revision, "withdrawal", said);
      desk.say(`The approval of revision ${named.mark} is withdrawn`);
    }, close));

  /** @param {number} revision */
  const bringBack = (revision) => ask(`back ${revision}`, (close) => {
    const called = calledBy(history, String(revision));
    return askForm(`Bring ${called} back`, "The plan becomes what it was then, saved as a new revision. What stands now stays in the list, one undo step away.", [], "Bring back", async () => {
      await savedRevision(desk);
      await history.bringBack(revision, `Bring ${called} back`);
      desk.say(`${called} is back as the newest revision; undo returns to what stood before`);
    }, close);
  });

  /** @param {NamedRevision} named */
  const namedLine = (named) => {
    const { revision, mark, approval } = named;
    const entries = history.answer?.entries.filter((entry) => entry.revision === revision && entry.what !== "named") ?? [];
    const withdrawn = entries.flatMap((entry, i) => (entry.what === "withdrawn" ? [{ entry, before: entries[i - 1] }] : []));
    const said = (/** @type {string} */ words) => `${words} revision ${mark}`;
    return h("li", { "data-mark": mark },
      h("p", { class: "named-head" }, h("b", { class: "mark-letter" }, mark), h("span", {}, named.words || "Named", h("small", {}, ` ${named.by}, ${dayWords(named.named)} · save ${revision}${revision === history.autosave.revision ? ", as it stands" : ""}`))),
      ...withdrawn.map(({ entry, before }) => h("p", { class: "withdrawn" }, `${before ? `Approved by ${before.by}, ${dayWords(before.on ?? before.recorded)}. ` : ""}Approval withdrawn by ${entry.by}, ${dayWords(entry.recorded)}: ${entry.words}`)),
      approval && h("p", { class: "approved" }, `✓ Approved by ${approval.by}, ${dayWords(approval.on ?? approval.recorded)}. Locked.`, approval.words ? ` ${approval.words}` : ""),
      h("div", { class: "buttons" },
        button(`compare ${revision}`, "Compare with now", () => history.compare({ from: String(revision), to: "now" }), `${said("Compare")} with the working plan`),
        approval ? button(`withdraw ${revision}`, "Withdraw…", () => withdraw(named), said("Withdraw the approval of")) : button(`approve ${revision}`, "Approve…", () => approve(named), said("Approve")),
        !approval && button(`name ${revision}`, "Rename…", () => name(revision, named), said("Rename")),
        revision !== history.autosave.revision && button(`back ${revision}`, "Bring back…", () => bringBack(revision), said("Bring back"))),
      formAt(`name ${revision}`) ?? formAt(`approve ${revision}`) ?? formAt(`withdraw ${revision}`) ?? formAt(`back ${revision}`));
  };

  /** @param {RevisionLine} line */
  const saveLine = (line) => h("li", {},
    h("span", {}, h("b", {}, `Save ${line.revision}`), h("small", {}, ` ${momentWords(line.saved)} · ${line.things} things${line.revision === history.autosave.revision ? ", as it stands" : ""}`)),
    h("div", { class: "buttons" },
      button(`compare ${line.revision}`, "Compare", () => history.compare({ from: String(line.revision), to: "now" }), `Compare save ${line.revision} with the working plan`),
      button(`name ${line.revision}`, "Name…", () => name(line.revision), `Name save ${line.revision}`),
      line.revision !== history.autosave.revision && button(`back ${line.revision}`, "Bring back…", () => bringBack(line.revision), `Bring save ${line.revision} back`)),
    formAt(`name ${line.revision}`) ?? formAt(`back ${line.revision}`));

  const draw = () => {
    const held = element.contains(document.activeElement) && document.activeElement instanceof HTMLElement ? document.activeElement.dataset.opens : undefined;
    if (open && element.contains(document.activeElement) && open.form.contains(document.activeElement)) return; // nothing is taken from under the fingers
    const named = (history.answer?.revisions ?? []).slice().sort((one, two) => two.revision - one.revision);
    const numbers = new Set(named.map((entry) => entry.revision));
    const unnamed = history.revisions.filter((line) => !numbers.has(line.revision));
    const standing = named.some((entry) => entry.revision === history.autosave.revision);
    head.replaceChildren(...(standing ? [] : [h("div", { class: "buttons" }, button("name now", "Name the plan as it stands…", () => name(null)))]), formAt("name now") ?? "");
    place.replaceChildren(...named.map(namedLine));
    others.hidden = !unnamed.length;
    saves.replaceChildren(...unnamed.slice(0, MOST).map(saveLine), ...(unnamed.length > MOST ? [h("li", { class: "quiet" }, `and ${unnamed.length - MOST} older: pick them under Compare`)] : []));
    const again = held ? element.querySelector(`[data-opens="${held}"]`) : null;
    if (again instanceof HTMLElement) again.focus({ preventScroll: true });
  };
  history.listen(draw);
  draw();
  return element;
}

/** The revision of the plan on the page, once the server has it; raises where it cannot be saved. @param {Desk} desk */
async function savedRevision(desk) {
  await desk.autosave.now();
  if (!desk.autosave.isCurrent || desk.autosave.state !== "saved") throw new Error("the plan on the page is not saved yet: see beside the plan's name, then try again");
  return desk.autosave.revision;
}
