/**
 * The drawing of the level in view: layers in order, each drawn again only when what it shows has changed.
 */

/** @import { Point, Tables } from "../plan/types.js" */
/** @import { PlanStore } from "../plan/store.js" */
/** @import { Selection } from "../plan/selection.js" */
/** @import { Proof } from "../server/proof.js" */
/** @import { View } from "./view.js" */

import { boxOf } from "../geometry/points.js";
import { pointsOf, unitsOf } from "../plan/lookup.js";
import { drawDevices } from "./devices.js";
import { drawObstructions, drawSigns } from "./fixtures.js";
import { drawGrid } from "./grid.js";
import { drawOpenings } from "./openings.js";
import { OverlayLayers } from "./overlay.js";
import { patchChildren } from "./patch.js";
import { drawFloors, drawRooms } from "./rooms.js";
import { make } from "./svg.js";
import { sidesOf } from "./swing_side.js";
import { placeNames, placeTags, symbolBoxes } from "./tags.js";
import { drawGhost, drawWalls } from "./walls.js";

const LAYERS = ["grid", "ghost", "floors", "proof-under", "fixtures", "walls", "openings", "signs", "rooms", "proof-over", "devices", "marks", "handles"];

export class Drawing {
  /**
   * @param {SVGSVGElement} svg @param {SVGGElement} world @param {View} view @param {PlanStore} store
   * @param {Selection} selection @param {Proof} proof @param {Tables} tables
   */
  constructor(svg, world, view, store, selection, proof, tables) {
    this.svg = svg;
    this.view = view;
    this.store = store;
    this.selection = selection;
    this.proof = proof;
    this.tables = tables;
    /** @type {Map<string, SVGElement>} */
    this.layers = new Map(LAYERS.map((name) => [name, make("g", { class: `layer ${name}` })]));
    const defs = make("defs");
    world.append(defs, ...this.layers.values());
    this.overlay = new OverlayLayers(defs, this.layer("proof-under"), this.layer("proof-over"));
    /** @type {string | null} */
    this.overlayDrawn = null;
    /** @type {Map<string, unknown[]>} what each layer was drawn from */
    this.drawnFrom = new Map();
    /** @type {{from: unknown[], placed: ReturnType<typeof placeNames>} | null} */
    this.names = null;
    this.showGhost = true;
    /** @type {() => Point[]} places that an empty level shows: a picture to be traced */
    this.others = () => [];
    this.waiting = false;
    view.extent = () => boxOf([...pointsOf(store.level), ...this.others()], 3);
    view.listen(() => this.ask());
    store.listen(() => this.ask());
    selection.listen(() => this.ask());
    proof.listen(() => this.ask());
  }

  /** @param {string} name */
  layer(name) {
    return /** @type {SVGElement} */ (this.layers.get(name));
  }

  /** Draw in the next frame. */
  ask() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.draw();
    });
  }

  draw() {
    const { store, view, proof, tables } = this;
    const { level, shown } = store;
    const units = unitsOf(shown);
    const zoomed = Math.round(Math.log2(view.scale) * 4); // words are laid out anew at every quarter octave
    const rooms = proof.answer?.rooms ?? [];
    const faces = proof.answer?.levels ?? [];
    const below = this.showGhost ? levelBelow(shown.levels, level.id) : undefined;
    this.#layer("grid", [view.scale, view.origin, view.size.width, view.size.height, units], () => drawGrid(view, units));
    this.#layer("ghost", [below?.walls, level.id], () => (below ? [drawGhost(below.walls ?? [])] : []));
    this.#layer("floors", [faces, level.id], () => drawFloors(faces.find((entry) => entry.id === level.id)?.faces ?? []));
    this.#layer("signs", [level.fixtures], () => drawSigns(level));
    this.#layer("walls", [level.walls, level.openings], () => drawWalls(level));
    this.#layer("openings", [level.walls, level.openings, rooms], () => drawOpenings(level, sidesOf(level, rooms, faces)));
    // Names keep their places while a device is dragged past them: they are laid out for the plan as committed.
    const committed = store.committedLevel;
    const { shifts, boxes } = this.#laidOut([committed, rooms, zoomed, units], () => placeNames(committed, rooms, units, view.scale));
    this.#layer("fixtures", [level.fixtures, zoomed, boxes], () => drawObstructions(level, view.scale, [...boxes, ...symbolBoxes(committed, view.scale)]));
    this.#layer("rooms", [level.rooms, rooms, zoomed, units, shifts], () => drawRooms(level, rooms, units, view.scale, shifts));
    this.#layer("devices", [level.devices, zoomed, boxes], () => drawDevices(level, tables, placeTags(level, boxes, tables, view.scale)));
    this.#overlay();
    this.#mark();
  }

  /** @param {string} name @param {unknown[]} from @param {() => SVGElement[]} draw */
  #layer(name, from, draw) {
    const before = this.drawnFrom.get(name);
    if (before && before.every((value, i) => value === from[i])) return;
    this.drawnFrom.set(name, from);
    patchChildren(this.layer(name), draw());
  }

  /** @param {unknown[]} from @param {() => ReturnType<typeof placeNames>} place */
  #laidOut(from, place) {
    if (!this.names || from.some((value, i) => value !== this.names?.from[i])) this.names = { from, placed: place() };
    return this.names.placed;
  }

  #overlay() {
    const { overlay } = this.proof;
    if (overlay === this.overlayDrawn) return;
    this.overlayDrawn = overlay;
    this.overlay.show(overlay);
  }

  /** Mark what is selected, and what the proof says of it. */
  #mark() {
    const { ids } = this.selection;
    for (const part of this.svg.querySelectorAll(".layer:not(.handles) [data-id]")) part.classList.toggle("selected", ids.has(part.getAttribute("data-id") ?? ""));
    for (const part of this.layer("proof-under").querySelectorAll("[data-device]")) part.classList.toggle("selected", ids.has(part.getAttribute("data-device") ?? ""));
  }

  /** Show the whole level. */
  fit() {
    const points = pointsOf(this.store.level);
    this.view.fit(boxOf(points.length ? points : this.others(), 1));
  }
}

/** @template {{id: string, elevation?: number}} L @param {L[]} levels @param {string} id @returns {L | undefined} */
function levelBelow(levels, id) {
  const here = levels.find((level) => level.id === id)?.elevation ?? 0;
  return levels.filter((level) => (level.elevation ?? 0) < here).sort((one, two) => (two.elevation ?? 0) - (one.elevation ?? 0))[0];
}
