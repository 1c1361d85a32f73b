/**
 * The drawing lies on several planes, one SVG over the other, all in the plan's feet: the browser paints again only the
 * plane that changed. What stands still while a detector is dragged lies on planes apart from what moves.
 */

import { make } from "./svg.js";

export class Planes {
  /** @param {HTMLElement} board what the planes fill, and what pointers press on */
  constructor(board) {
    this.board = board;
    /** @type {SVGElement[]} each plane's content, in feet, from below */
    this.worlds = [];
  }

  /** One more plane above those that there are. @param {string} name @param {SVGElement[]} layers */
  add(name, layers) {
    const world = make("g", { class: "world" }, layers);
    this.worlds.push(world);
    this.board.append(make("svg", { class: `plane ${name}` }, [world]));
  }

  /** Show something above all the layers. @param {SVGElement} layer */
  addOnTop(layer) {
    this.worlds.at(-1)?.append(layer);
  }

  /** @param {string} transform from feet to pixels */
  transform(transform) {
    for (const world of this.worlds) world.setAttribute("transform", transform);
  }
}
