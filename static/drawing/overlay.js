/**
 * The server's overlay, taken apart into the page's own drawing: floor that is seen and reach go under the walls,
 * leaders and glass over the openings. While a detector is dragged most of it stays the same from answer to answer:
 * a group whose text is as before is not even parsed.
 */

/** @import { Pieces } from "../server/touched.js" */
/** @import { LaidPieces } from "./laid_pieces.js" */

import { patchChildren } from "./patch.js";
import { make } from "./svg.js";

const UNDER = ["rooms", "motion", "reach"];
const GROUPS = /(?=<g class="(?:rooms|motion|reach|leaders|glass)")/;

export class OverlayLayers {
  /** @param {SVGElement} defs @param {SVGElement} under @param {SVGElement} over @param {(part: Element) => void} dress what the page itself adds to a part */
  constructor(defs, under, over, dress) {
    this.defs = defs;
    this.under = under;
    this.over = over;
    /** @type {Map<string, {text: string, group: Element}>} what stands, by the group's name */
    this.standing = new Map();
    this.head = "";
    this.dress = dress;
    /** @type {LaidPieces | null} */
    this.pieces = null;
  }

  /** Take pieces from now on; what lays them comes with the first trial. @param {typeof LaidPieces} Layer */
  takePieces(Layer) {
    this.pieces ??= new Layer(parsedParts, [this.under, this.over], this.dress);
  }

  /** Lay pieces over what is shown, or none. @param {Pieces | null} pieces */
  lay(pieces) {
    if (pieces) this.pieces?.lay(pieces);
    else this.pieces?.lift();
  }

  /** Show an overlay; none clears it. @param {string | null} svg */
  show(svg) {
    this.pieces?.lift();
    const [head = "", ...groups] = (svg ?? "").replace(/<\/svg>\s*$/, "").split(GROUPS);
    if (head !== this.head) {
      this.head = head;
      patchChildren(this.defs, [...(parsedParts(`${head}</svg>`)[0]?.querySelector("defs")?.children ?? [])]);
    }
    const names = groups.map((text) => /^<g class="(\w+)"/.exec(text)?.[1] ?? "");
    for (const [name, { group }] of this.standing) {
      if (names.includes(name)) continue;
      group.remove();
      this.standing.delete(name);
    }
    groups.forEach((text, i) => this.#showGroup(names[i] ?? "", text));
  }

  /** @param {string} name @param {string} text */
  #showGroup(name, text) {
    const old = this.standing.get(name);
    if (old?.text === text) return;
    const [group] = parsedParts(text);
    if (!group) return;
    if (old && old.group.cloneNode(false).isEqualNode(group.cloneNode(false))) {
      patchChildren(old.group, [...group.children]);
      old.text = text;
      return;
    }
    if (old) old.group.replaceWith(group);
    else (UNDER.includes(name) ? this.under : this.over).append(group);
    this.standing.set(name, { text, group });
  }
}

/** A document is parsed in three times the time of a part of one. @param {string} text of elements, one after the other */
function parsedParts(text) {
  const holder = make("svg");
  holder.innerHTML = text;
  return [...holder.children];
}
