/**
 * The first pass: devices that the server proposes for the plan as it stands, each with its reason, to be taken one by
 * one or all. What the designer has placed stays; a proposal that is pointed at shows on the drawing.
 */

/** @import { Device, Plan } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { FirstPass, Proposal } from "../server/first_pass.js" */

import { addThings } from "../plan/edits.js";
import { find, index, kindOf, newId, tagOf } from "../plan/lookup.js";
import { askFirstPass } from "../server/first_pass.js";
import { h } from "./html.js";

/** @param {Desk} desk */
export function firstPass(desk) {
  const place = h("div", { class: "first-pass" });
  /** @type {AbortController | null} */
  let running = null;
  /** @type {FirstPass | null} */
  let pass = null;
  const elapsed = h("span", { class: "quiet", role: "timer", "aria-live": "off" });

  const ask = async () => {
    running = new AbortController();
    const begun = performance.now();
    const ticking = setInterval(() => (elapsed.textContent = secondsSince(begun)), 1000);
    elapsed.textContent = secondsSince(begun);
    let told = "";
    try {
      draw("Saving the plan…");
      await desk.autosave.now();
      draw("Working out where devices could go: contacts, then the fewest glass breaks, then the rest…");
      pass = await askFirstPass(desk.planId, running.signal);
      if (!pass) told = "Stopped; nothing was changed.";
    } catch (trouble) {
      told = `No first pass: ${trouble instanceof Error ? trouble.message : "something went wrong"}.`;
    }
    clearInterval(ticking);
    running = null;
    draw(told);
  };

  /** @param {Proposal[]} taken */
  const take = (taken) => {
    desk.store.sketch(null);
    const words = taken.length === 1 ? `Take ${taken[0] ? tagOf(taken[0].device, desk.tables) : ""} of the first pass` : `Take ${taken.length} devices of the first pass`;
    let plan = desk.store.plan;
    for (const proposal of taken) plan = withProposal(plan, proposal);
    if (pass && taken.length === pass.proposals.length) plan = withRisers(plan, pass);
    if (pass) pass = { ...pass, proposals: pass.proposals.filter((proposal) => !taken.includes(proposal)) };
    desk.store.commit(words, plan);
    desk.say(`${taken.length} ${taken.length === 1 ? "device" : "devices"} taken; undo takes them back`);
    draw("");
  };

  /** @param {string} told */
  const draw = (told) => place.replaceChildren(...[
    h("div", { class: "first-pass-head" },
      h("button", { type: "button", class: "main", disabled: Boolean(running), onclick: ask }, pass ? "Propose again" : "Propose a first pass"),
      running && h("button", { type: "button", onclick: () => running?.abort() }, "Stop"),
      running && elapsed),
    running && h("progress", { "aria-label": "First pass under way" }),
    h("p", { class: "quiet", role: "status" }, told || (pass ? pass.proof.words : "Contacts on every opening, the fewest glass breaks that cover all glass, motions, keypads, a siren and a can. What you have placed stays.")),
    ...(pass && !running ? [...proposalLines(desk, pass, take), ...leftLines(desk, pass)] : []),
  ].filter((part) => part !== null));

  draw("");
  return place;
}

/** @param {number} begun ms */
const secondsSince = (begun) => `${Math.floor((performance.now() - begun) / 1000)} s`;

/** @param {Desk} desk @param {FirstPass} pass @param {(taken: Proposal[]) => void} take */
function proposalLines(desk, pass, take) {
  if (!pass.proposals.length) return [h("p", {}, "Nothing to propose: what is placed does the work.")];
  const several = desk.store.plan.levels.length > 1;
  return [
    h("p", {}, h("button", { type: "button", onclick: () => take(pass.proposals) }, `Take all ${pass.proposals.length}`)),
    h("ul", { class: "proposals" }, ...pass.proposals.map((proposal) => {
      const kind = kindOf(desk.tables, proposal.device.kind);
      const tag = tagOf(proposal.device, desk.tables);
      const level = desk.store.plan.levels.find((entry) => entry.id === proposal.level);
      const show = () => {
        desk.store.showLevel(proposal.level);
        desk.store.sketch(withProposal(desk.store.plan, proposal));
      };
      const hide = () => desk.store.sketch(null);
      return h("li", { onpointerenter: show, onpointerleave: hide, onfocusin: show, onfocusout: hide },
        h("div", {}, h("b", {}, `${kind.name} ${tag}`), several && level ? h("small", {}, ` ${level.name}`) : null, h("p", {}, proposal.reason)),
        h("button", { type: "button", "aria-label": `Take ${kind.name} ${tag}`, onclick: () => take([proposal]) }, "Take"));
    })),
  ];
}

/** @param {Desk} desk @param {FirstPass} pass */
function leftLines(desk, pass) {
  if (!pass.unreachable.length) return [];
  const instead = (/** @type {string} */ id) => {
    const device = pass.proposals.find((proposal) => proposal.device.id === id)?.device ?? find(desk.store.plan, id)?.thing;
    return device && "kind" in device && "at" in device ? tagOf(/** @type {Device} */ (device), desk.tables) : id;
  };
  return [
    h("h4", {}, "No place on a ceiling covers"),
    h("ul", { class: "plain" }, ...pass.unreachable.map((pane) => h("li", {}, h("b", {}, pane.pane), ` ${pane.why}${pane.instead ? ` ${instead(pane.instead)} covers it from a wall.` : ""}`))),
  ];
}

/** A plan with a proposed device, under an id that is free. @param {Plan} plan @param {{level: string, device: Device}} proposal */
export function withProposal(plan, proposal) {
  if (!plan.levels.some((level) => level.id === proposal.level)) return plan;
  return addThings(plan, proposal.level, "devices", [{ ...proposal.device, id: freeId(plan, proposal.device.id) }]);
}

/** @param {Plan} plan @param {FirstPass} pass */
function withRisers(plan, pass) {
  const risers = pass.risers.map(({ riser }) => ({ ...riser, id: freeId(plan, riser.id) }));
  return risers.length ? { ...plan, risers: [...(plan.risers ?? []), ...risers] } : plan;
}

/** The id, or the next like it that the plan has not. @param {Plan} plan @param {string} id */
function freeId(plan, id) {
  const taken = index(plan).has(id) || [...plan.levels, ...(plan.risers ?? [])].some((thing) => thing.id === id);
  return taken ? newId(plan, `${id.replace(/-?\d+$/, "")}-`) : id;
}
