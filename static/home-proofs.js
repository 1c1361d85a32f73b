/** The state of the proof on each card: how many panes are covered, and how much is to be mended. */
import { ask } from "./home-asking.js";

/** Ask for the check of each card's plan in turn, the topmost first. */
export async function tellProofs() {
  for (const card of document.querySelectorAll(".card[data-plan]")) {
    const line = card.querySelector("[data-proof]");
    if (!(card instanceof HTMLElement) || !(line instanceof HTMLElement)) continue;
    try {
      const { summary } = await ask("GET", `/api/plans/${card.dataset.plan}/check`);
      const [state, words] = proofOf(summary);
      line.dataset.state = state;
      line.textContent = words;
    } catch {
      line.textContent = "not checked: open it to see why";
    }
  }
}

/**
 * @param {Record<"panes" | "covered" | "must", number>} summary
 * @returns {["empty" | "mend" | "good", string]}
 */
export function proofOf({ panes, covered, must }) {
  if (!panes && !must) return ["empty", "no glass drawn yet"];
  const mend = must ? ` · ${must} to mend` : "";
  const good = covered === panes && !must;
  return [good ? "good" : "mend", `${good ? "✓" : "▲"} ${covered} of ${panes} panes covered${mend}`];
}
