/**
 * The list of plans: a plan made, copied, opened from a file, removed and put back.
 * Each card's state of proof is asked for one after another, so that the list itself is there at once.
 */
import { ask, Refused } from "./home-asking.js";
import { makePlan, settleUnits } from "./home-new.js";
import { takesPacks } from "./home-pack.js";
import { tellProofs } from "./home-proofs.js";
import { tellTimes } from "./home-times.js";

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/**
 * Say what was done, with one thing that may be done about it.
 * @param {string} words
 * @param {{words: string, act: () => void}=} offer
 */
function tell(words, offer) {
  const told = byId("told");
  told.textContent = words;
  if (offer) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = offer.words;
    button.addEventListener("click", offer.act);
    told.append(button);
  }
}

/**
 * Show why something was refused, a line a fault.
 * @param {string} what
 * @param {unknown} error
 */
function showFaults(what, error) {
  const faults = byId("faults");
  const refused = error instanceof Refused ? error : new Refused(String(error), []);
  /** @type {HTMLElement} */ (faults.querySelector("h2")).textContent = `${what}: ${refused.message}`;
  const lines = refused.faults.map((fault) => {
    const line = document.createElement("li");
    line.textContent = fault.at ? `${fault.at}: ${fault.message}` : fault.message;
    return line;
  });
  /** @type {HTMLElement} */ (faults.querySelector("ul")).replaceChildren(...lines);
  faults.hidden = false;
  faults.scrollIntoView({ block: "nearest" });
}

/** @param {string} source a plan file's text */
async function keepAndOpen(source) {
  const kept = await ask("POST", "/api/plans", { body: source });
  location.assign(`/plans/${kept.id}`);
}

/** @param {File} file */
async function openFile(file) {
  try {
    await keepAndOpen(await file.text());
  } catch (error) {
    showFaults(file.name, error);
  }
}

/** @param {HTMLElement} card */
async function copyPlan(card) {
  await ask("POST", `/api/plans/${card.dataset.plan}/copy`);
  location.reload();
}

/** @param {HTMLElement} card */
async function removePlan(card) {
  const id = String(card.dataset.plan);
  await ask("DELETE", `/api/plans/${id}`, { revision: card.dataset.revision });
  card.remove();
  tell(`${card.dataset.name} was removed.`, { words: "Put back", act: () => act(() => putBack(id), "Put back") });
  byId("told").querySelector("button")?.focus();
}

/** @param {string} id */
async function putBack(id) {
  await ask("POST", `/api/removed/${id}/restore`);
  location.reload();
}

/**
 * @param {() => Promise<void>} work
 * @param {string} what
 */
async function act(work, what) {
  byId("faults").hidden = true;
  try {
    await work();
  } catch (error) {
    showFaults(what, error);
  }
}

function listen() {
  const form = /** @type {HTMLFormElement} */ (byId("new-plan"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void act(() => makePlan(form), "New plan");
  });
  settleUnits(form);
  takesPacks(/** @type {HTMLInputElement} */ (byId("pack-file")), showFaults);
  const input = /** @type {HTMLInputElement} */ (byId("plan-file"));
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file) void openFile(file);
    input.value = "";
  });
  document.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement} */ (event.target).closest("[data-do]");
    const holder = /** @type {HTMLElement | null} */ (button?.closest("[data-plan]") ?? null);
    if (!(button instanceof HTMLElement) || !holder) return;
    if (button.dataset.do === "copy") void act(() => copyPlan(holder), "Copy");
    if (button.dataset.do === "remove") void act(() => removePlan(holder), "Remove");
    if (button.dataset.do === "put-back") void act(() => putBack(String(holder.dataset.plan)), "Put back");
  });
  listenForDrops();
}

/** A plan file dropped anywhere on the page is opened. */
function listenForDrops() {
  const dropping = (/** @type {boolean} */ on) => document.body.classList.toggle("dropping", on);
  document.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    dropping(true);
  });
  document.addEventListener("dragleave", (event) => {
    if (!event.relatedTarget) dropping(false);
  });
  document.addEventListener("drop", (event) => {
    const file = event.dataTransfer?.files[0];
    dropping(false);
    if (!file) return;
    event.preventDefault();
    void openFile(file);
  });
}

listen();
tellTimes();
void tellProofs();
