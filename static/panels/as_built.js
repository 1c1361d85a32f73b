/**
 * What was built, device by device, beside what was designed, in the step Handover: who looked and when, every
 * difference marked, and each line a form to record it on site.
 */

/** @import { BuiltLine } from "../plan/history_types.js" */
/** @import { Desk } from "../desk.js" */

import { leadTo } from "../gestures/actions.js";
import { find } from "../plan/lookup.js";
import { AsBuilt } from "../server/as_built.js";
import { section } from "./fields.js";
import { h } from "./html.js";
import { dayWords, today } from "./revisions/words.js";

const MOST = 300; // lines at once
/** @type {Record<string, [string, string]>} a sign and its words */
const SIGNS = { none: ["·", "not recorded"], same: ["✓", "as designed"], differs: ["≠", "differs"], gone: ["?", "not on the plan"] };
/** @type {[string, string][]} */
const FILTERS = [["", "All devices"], ["none", "Not recorded"], ["differs", "Differ"], ["same", "As designed"]];

/** @param {Desk} desk @param {HTMLElement} panel the step's place: the record is watched while it is in sight */
export function asBuilt(desk, panel) {
  const built = new AsBuilt(desk.planId, desk.autosave);
  const count = h("p", { class: "quiet", role: "status" });
  const trouble = h("p", { class: "fault", role: "alert" });
  const filter = h("select", { "aria-label": "Which devices", onchange: () => draw() }, ...FILTERS.map(([value, words]) => h("option", { value }, words)));
  const place = h("ul", { class: "built" });
  const rest = h("button", { type: "button", onclick: () => restAsDesigned() }, "Record the rest as designed…");
  /** @type {{device: string, form: HTMLElement, focus: () => void} | null} */
  let open = null;
  let asking = false;
  let refused = "";
  const part = section("As built", h("p", { class: "quiet" }, "What the crew really built, kept beside the plan in a file of its own and printed by the as-fitted record."),
    count, trouble,
    h("details", { class: "devices-built" }, h("summary", {}, "Device by device"),
      h("div", { class: "built-head" }, filter, rest, h("a", { class: "button", href: `/api/plans/${desk.planId}/as-built/file`, download: "" }, "As-built file")), place));

  const close = () => {
    const device = open?.device;
    open = null;
    draw();
    const line = device ? place.querySelector(`[data-device="${device}"] button`) : null;
    if (line instanceof HTMLElement) line.focus({ preventScroll: true });
  };

  let wanted = "";
  /** @param {BuiltLine} line */
  const openForm = async (line) => {
    wanted = line.device;
    if (find(desk.store.plan, line.device)) leadTo(desk, line.device);
    const part = await import("./as_built/form.js").catch(() => null);
    if (!part) return desk.say("The form has not come: the server does not answer. Press again to try once more.", true);
    if (wanted !== line.device) return;
    const { builtForm } = part;
    open = { device: line.device, ...builtForm(desk, built, line, close) };
    draw();
    open.focus();
  };

  const restAsDesigned = async () => {
    const left = built.lines.filter((line) => stateOf(line) === "none");
    if (!asking) {
      asking = true;
      rest.textContent = `Sure? ${left.length} device${left.length === 1 ? "" : "s"} as designed, ${dayWords(today())}`;
      return;
    }
    asking = false;
    refused = "";
    try {
      const by = built.answer?.record.entries.at(-1)?.by ?? "";
      await built.record(left.map((line) => ({ device: line.device, as_designed: true, on: today(), by })));
      desk.say(`${left.length} devices are recorded as designed`);
    } catch (error) {
      refused = `Not recorded: ${error instanceof Error ? error.message : error}.`;
    }
    draw();
  };
  rest.addEventListener("blur", () => {
    asking = false;
    draw();
  });

  /** @param {BuiltLine} line */
  const lineOf = (line) => {
    const state = stateOf(line);
    const [sign, words] = SIGNS[state] ?? ["", ""];
    const entry = built.entryOf(line.device);
    const who = entry ? [entry.by, entry.on ? dayWords(entry.on) : "", entry.terminal && `terminal ${entry.terminal}`, entry.note].filter(Boolean).join(", ") : "";
    const unsent = built.kept(line.device) && open?.device !== line.device;
    return h("li", { "data-device": line.device, "data-state": state },
      h("button", { type: "button", class: "built-line", "aria-expanded": String(open?.device === line.device), onclick: () => (open?.device === line.device ? close() : openForm(line)) },
        h("span", { class: "built-sign", "aria-hidden": "true" }, sign),
        h("span", {}, h("b", {}, line.name), `: ${words}${unsent ? ", typed here but not recorded" : ""}`, who ? h("small", {}, who) : null)),
      ...line.differences.map((difference) => h("p", { class: "differs" }, `${difference.words}: ${difference.designed} → ${difference.built}`)),
      open?.device === line.device ? open.form : null);
  };

  const draw = () => {
    if (open && open.form.contains(document.activeElement)) return; // nothing is taken from under the fingers
    const { lines } = built;
    const of = (/** @type {string} */ state) => lines.filter((line) => stateOf(line) === state).length;
    count.textContent = built.answer ? `${lines.length - of("none")} of ${lines.length} recorded, ${of("differs")} differ${of("differs") === 1 ? "s" : ""} from the design.` : "Looking up what was built…";
    trouble.textContent = built.trouble ? `What stands here may be old: ${built.trouble}.` : refused;
    rest.hidden = !of("none");
    if (!asking) rest.textContent = "Record the rest as designed…";
    const shown = lines.filter((line) => !filter.value || stateOf(line) === filter.value || open?.device === line.device);
    place.replaceChildren(...shown.slice(0, MOST).map(lineOf), ...(shown.length > MOST ? [h("li", { class: "quiet" }, `and ${shown.length - MOST} more: choose which above`)] : []));
  };

  built.listen(draw);
  new MutationObserver(() => built.watch(!panel.hidden)).observe(panel, { attributeFilter: ["hidden"] });
  draw();
  return part;
}

/** @param {BuiltLine} line */
function stateOf(line) {
  if (line.level === null) return "gone";
  if (!line.recorded) return "none";
  return line.differences.length ? "differs" : "same";
}
