/**
 * Find: typed words lead to any thing, finding, step, tool or command. A combobox with its list, driven by keys alone.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Key } from "../gestures/keys.js" */
/** @import { Steps } from "../panels/steps.js" */
/** @import { Entry } from "./ranking.js" */

import { h } from "../panels/html.js";
import { entriesOf } from "./entries.js";
import { ranked } from "./ranking.js";

const MOST = 40; // lines at once

export class FindBox {
  /** @param {Desk} desk @param {HTMLDialogElement} dialog @param {Steps} steps @param {Key[]} keys */
  constructor(desk, dialog, steps, keys) {
    this.dialog = dialog;
    /** @type {Entry[]} */
    this.all = [];
    /** @type {Entry[]} */
    this.found = [];
    this.at = 0;
    this.collect = () => entriesOf(desk, steps, keys);
    this.input = h("input", {
      type: "text", role: "combobox", "aria-label": "Find anything: a name, an id, a room, a finding, a tool", "aria-expanded": "false",
      "aria-controls": "found", "aria-autocomplete": "list", autocomplete: "off", spellcheck: "false", placeholder: "A name, id, room, finding, tool or command",
      oninput: () => this.#look(), onkeydown: (/** @type {KeyboardEvent} */ event) => this.#key(event),
    });
    this.list = h("ul", { id: "found", role: "listbox", "aria-label": "Found" });
    this.told = h("p", { class: "quiet", role: "status" });
    dialog.append(h("div", { class: "find-head" }, this.input, h("button", { type: "button", class: "icon", "aria-label": "Close", onclick: () => dialog.close() }, "×")), this.list, this.told);
    dialog.addEventListener("click", (event) => event.target === dialog && dialog.close());
  }

  open() {
    if (this.dialog.open) return;
    this.all = this.collect();
    this.dialog.showModal();
    this.input.select();
    this.#look();
  }

  #look() {
    this.found = ranked(this.all, this.input.value, MOST);
    this.at = 0;
    this.list.replaceChildren(...this.found.map((entry, i) => h("li", { role: "option", id: `found-${i}`, onclick: () => this.#go(i), onpointermove: () => this.#mark(i) },
      h("span", { class: "find-group" }, entry.group), h("b", { dir: "auto" }, entry.title), h("small", { dir: "auto" }, entry.more))));
    this.input.setAttribute("aria-expanded", String(this.found.length > 0));
    const typed = this.input.value.trim();
    this.told.textContent = !typed ? "Arrow keys choose, Enter goes there." : this.found.length ? `${this.found.length === MOST ? `the first ${MOST}` : this.found.length} found` : `Nothing is called “${typed}”. Try a room, a kind such as window, or a word of a finding.`;
    this.#mark(0);
  }

  /** @param {number} at */
  #mark(at) {
    this.at = at;
    [...this.list.children].forEach((line, i) => line.setAttribute("aria-selected", String(i === at)));
    const line = this.list.children[at];
    if (line) this.input.setAttribute("aria-activedescendant", line.id);
    else this.input.removeAttribute("aria-activedescendant");
    line?.scrollIntoView({ block: "nearest" });
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const by = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 }[event.key];
    if (by && this.found.length) {
      event.preventDefault();
      const { length } = this.found;
      this.#mark(Math.abs(by) === 1 ? (this.at + by + length) % length : Math.min(length - 1, Math.max(0, this.at + by)));
    } else if (event.key === "Enter") {
      event.preventDefault();
      this.#go(this.at);
    }
  }

  /** @param {number} at */
  #go(at) {
    const entry = this.found[at];
    if (!entry) return;
    this.dialog.close();
    document.getElementById("drawing")?.focus({ preventScroll: true });
    entry.go();
  }
}
