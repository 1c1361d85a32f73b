/**
 * What opens on a plan's page only when it is wanted: the properties, the chosen pane, the table of things, the field for
 * a length, help, find, the tour, the question on a conflict.
 * Each is fetched then, or when the page stands and has nothing else to do: opening a plan asks for little, and no press waits.
 */

/** @import { Desk } from "./desk.js" */
/** @import { Keys } from "./gestures/keys.js" */
/** @import { Steps } from "./panels/steps.js" */

import { fetchDrags } from "./gestures/select.js";
import { fetchGestures } from "./gestures/tools.js";
import { byId } from "./panels/html.js";
import { once } from "./panels/late.js";

const AGAIN = 3000; // ms until what the server did not give is asked for anew

export class Latecomers {
  /** @param {Desk} desk @param {Steps} steps */
  constructor(desk, steps) {
    this.desk = desk;
    this.steps = steps;
    /** @type {Keys | null} */
    this.keys = null;
    this.#properties();
    this.#chosenPane();
    this.#things();
    this.loadConflict = once(async () => (await import("./panels/conflict.js")).askOnConflict(desk, byId("conflict", HTMLDialogElement)));
    desk.autosave.listen(() => desk.autosave.state === "conflict" && this.loadConflict().catch(() => this.#tellAway()));
    this.loadStanding = once(() => this.#standing());
    desk.opened.then(() => this.#rest());
    this.loadHelp = once(async () => {
      const { Help } = await import("./panels/help.js");
      return new Help(desk, byId("help", HTMLDialogElement), this.keys?.table ?? [], () => void this.tour(true));
    });
    this.loadLength = once(async () => (await import("./panels/length_box.js")).lengthBox(desk, byId("length-box", HTMLFormElement)));
    /** @type {string | null} what was typed of a length while its field was on its way */
    this.typed = null;
    this.loadFind = once(async () => {
      const { FindBox } = await import("./find/find_box.js");
      return new FindBox(desk, byId("find", HTMLDialogElement), steps, this.keys?.table ?? []);
    });
  }

  /** What stands on the page but is not needed for the first press. */
  async #standing() {
    const [{ viewButtons }, { showApproval }] = await Promise.all([import("./panels/view_buttons.js"), import("./panels/approval.js")]);
    viewButtons(this.desk, byId("view-buttons", HTMLElement));
    showApproval(this.desk, byId("strip", HTMLElement), (step) => this.steps.showNamed(step));
  }

  /** Fetch ahead, the likeliest first; where the server is away, try again later. */
  async #rest() {
    try {
      await Promise.all([this.loadStanding(), fetchDrags(), this.loadLength(), this.keys?.fetch(), import("./panels/shell.js")]);
      for (const fetch of [() => import("./panels/inspector.js"), fetchGestures, () => import("./find/find_box.js"), () => import("./panels/help.js"), () => import("./panels/conflict.js")]) {
        await idle();
        await fetch();
      }
      document.body.dataset.rest = "here";
    } catch {
      setTimeout(() => this.#rest(), AGAIN);
    }
  }

  /** Ask again which plan is to stand. */
  conflict() {
    this.loadConflict().then((ask) => ask(), () => this.#tellAway());
  }

  help() {
    this.#open(this.loadHelp());
  }

  find() {
    this.#open(this.loadFind());
  }

  /** The field for a length, with what was typed of it. @param {string} first */
  length(first) {
    if (this.typed !== null) {
      this.typed += first;
      return;
    }
    this.typed = first;
    this.loadLength().then((open) => open(this.typed ?? ""), () => this.#tellAway()).finally(() => (this.typed = null));
  }

  /** The tour. @param {boolean} called by someone, who is led into it */
  async tour(called) {
    try {
      const { tour } = await import("./panels/tour.js");
      tour(this.desk, this.steps, called);
    } catch {
      this.#tellAway();
    }
  }

  /** The tour, where nobody has seen or left it in this browser yet. */
  async welcome() {
    const { TOUR, keptChoice } = await import("./panels/kept_choice.js");
    if (keptChoice(TOUR) === null) await this.tour(false);
  }

  /** @param {Promise<{open: () => void}>} coming */
  #open(coming) {
    coming.then((part) => part.open(), () => this.#tellAway());
  }

  #tellAway() {
    this.desk.say("That part has not come: the server does not answer. What you have drawn is kept here.", true);
  }

  #properties() {
    const { desk } = this;
    const load = once(async () => (await import("./panels/inspector.js")).showInspector(desk, byId("inspector", HTMLElement)));
    let shown = false;
    /** @param {string | null} field the properties' field to be led to once they are there */
    const want = async (field) => {
      if (shown) return;
      await load().catch(() => this.#tellAway());
      if (shown) return;
      shown = true;
      if (field !== null) desk.tools.askFor(field);
    };
    desk.selection.listen(() => desk.selection.ids.size > 0 && void want(null));
    // A tool's first thing may ask for a field of it at once: the properties are fetched with the tool.
    desk.tools.listen((field) => (field !== null || desk.tools.current !== "select") && void want(field));
  }

  #things() {
    const place = byId("things", HTMLDetailsElement);
    const load = once(async () => (await import("./panels/things.js")).showThings(this.desk, place));
    place.addEventListener("toggle", () => place.open && load().catch(() => this.#tellAway()));
  }

  #chosenPane() {
    const { desk } = this;
    const load = once(async () => (await import("./panels/chosen_pane.js")).showChosenPane(desk, byId("elevation", HTMLElement)));
    desk.selection.listen(() => desk.selection.pane && load().catch(() => this.#tellAway()));
  }
}

/** Settles when the browser has nothing to do, or soon. @returns {Promise<void>} */
const idle = () => new Promise((resolve) => ("requestIdleCallback" in globalThis ? requestIdleCallback(() => resolve(), { timeout: 300 }) : setTimeout(resolve, 30)));
