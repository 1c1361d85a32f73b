/**
 * The drawing of the level in view: layers in order, each drawn again only when what it shows has changed.
 */

/** @import { Device, Point, Tables } from "../plan/types.js" */
/** @import { PlanStore } from "../plan/store.js" */
/** @import { Selection } from "../plan/selection.js" */
/** @import { Proof } from "../server/proof.js" */
/** @import { Planes } from "./planes.js" */
/** @import { TagPlace } from "./tags.js" */
/** @import { View } from "./view.js" */

import { boxOf } from "../geometry/points.js";
import { levelBelow, pointsOf, unitsOf } from "../plan/lookup.js";
import { drawDevice } from "./devices.js";
import { drawObstructions, drawSigns } from "./fixtures.js";
import { drawGrid } from "./grid.js";
import { drawOpenings } from "./openings.js";
import { OverlayLayers } from "./overlay.js";
import { inNextFrame } from "./next_frame.js";
import { become, keepChildren, patchChildren } from "./patch.js";
import { drawFloors, drawRooms } from "./rooms.js";
import { make, putOnPaper } from "./svg.js";
import { sidesOf } from "./swing_side.js";
import { placeNames, placeTags, symbolBoxes } from "./tags.js";
import { drawGhost, drawWalls } from "./walls.js";

/** @type {Record<string, string[]>} the layers of each plane, from below */
const PLANES = {
  ground: ["grid", "ghost", "floors"],
  under: ["proof-under"],
  house: ["fixtures", "walls", "openings", "signs", "rooms"],
  over: ["proof-over"],
  placed: ["devices"],
  upper: ["selected-devices"], // what is dragged is selected
  hand: ["marks", "handles"],
};
/** @type {never[]} the same each time, so that nothing is drawn again for it */
const NONE = [];
const LAYERS = Object.values(PLANES).flat();

export class Drawing {
  /**
   * @param {Planes} planes @param {View} view @param {PlanStore} store
   * @param {Selection} selection @param {Proof} proof @param {Tables} tables
   */
  constructor(planes, view, store, selection, proof, tables) {
    this.board = planes.board;
    this.view = view;
    this.store = store;
    this.selection = selection;
    this.proof = proof;
    this.tables = tables;
    /** @type {Map<string, SVGElement>} */
    this.layers = new Map(LAYERS.map((name) => [name, make("g", { class: `layer ${name}` })]));
    const defs = make("defs");
    for (const [plane, layers] of Object.entries(PLANES)) planes.add(plane, layers.map((name) => this.layer(name)));
    this.layer("proof-under").before(defs);
    this.overlay = new OverlayLayers(defs, this.layer("proof-under"), this.layer("proof-over"), (part) => this.#markPart(part));
    /** @type {string | null} */
    this.overlayDrawn = null;
    /** @type {Map<string, unknown[]>} what each layer was drawn from */
    this.drawnFrom = new Map();
    /** @type {Map<string, {from: unknown[], placed: unknown}>} places of words, and what they were found from */
    this.placed = new Map();
    /** @type {Map<string, {device: Device, place: TagPlace | undefined, part: SVGElement}>} by id, as they are drawn */
    this.devicesDrawn = new Map();
    /** @type {Set<string>} layers drawn anew, whose selected things are not marked yet */
    this.unmarked = new Set();
    /** @type {Set<string> | null} the selection that is marked */
    this.marked = null;
    this.showGhost = true;
    /** @type {() => Point[]} places that an empty level shows: a picture to be traced */
    this.others = () => [];
    this.begun = false;
    /** Draw in the next frame. */
    this.ask = inNextFrame(() => this.begun && this.draw());
    view.extent = () => boxOf([...pointsOf(store.level), ...this.others()]);
    view.listen(() => this.ask());
    store.listen(() => this.ask());
    selection.listen(() => this.ask());
    proof.listen(() => this.ask());
  }

  /** @param {string} name */
  layer(name) {
    return /** @type {SVGElement} */ (this.layers.get(name));
  }

  /** Draw for the first time; until then nothing is. */
  begin() {
    this.begun = true;
    this.draw();
  }

  draw() {
    const { store, view, proof, tables } = this;
    const { level, shown } = store;
    const units = unitsOf(shown);
    const zoomed = Math.round(Math.log2(view.scale) * 4); // words are laid out anew at every quarter octave
    const rooms = proof.answer?.rooms ?? NONE;
    const faces = proof.answer?.levels ?? NONE;
    const below = this.showGhost ? levelBelow(shown.levels, level.id) : undefined;
    // Names keep their places while a device is dragged past them: they are laid out for the plan as committed. They
    // are measured before anything is drawn anew, as measuring has the page styled.
    const committed = store.committedLevel;
    const { shifts, boxes } = this.#once("names", [committed, rooms, zoomed, units], () => placeNames(committed, rooms, units, view.scale));
    this.#layer("grid", [view.scale, view.origin, view.size.width, view.size.height, units], () => drawGrid(view, units));
    this.#layer("ghost", [below?.walls, level.id], () => (below ? [drawGhost(below.walls ?? [])] : []));
    this.#layer("floors", [faces, level.id], () => drawFloors(faces.find((entry) => entry.id === level.id)?.faces ?? []));
    this.#layer("signs", [level.fixtures], () => drawSigns(level));
    this.#layer("walls", [level.walls, level.openings], () => drawWalls(level));
    this.#layer("openings", [level.walls, level.openings, rooms], () => drawOpenings(level, sidesOf(level, rooms, faces)));
    this.#layer("fixtures", [level.fixtures, zoomed, boxes], () => drawObstructions(level, view.scale, [...boxes, ...symbolBoxes(committed, view.scale)]));
    this.#layer("rooms", [level.rooms, rooms, zoomed, units, shifts], () => drawRooms(level, rooms, units, view.scale, shifts));
    this.#devices(level.devices ?? [], this.#once("tags", [committed, boxes, zoomed], () => placeTags(committed, boxes, tables, view.scale)));
    this.#overlay();
    this.#mark();
  }

  /** Whether a layer is drawn from these very things; else it is noted that it will be. @param {string} name @param {unknown[]} from */
  #stands(name, from) {
    const before = this.drawnFrom.get(name);
    if (before && same(before, from)) return true;
    this.drawnFrom.set(name, from);
    this.unmarked.add(name);
    return false;
  }

  /** @param {string} name @param {unknown[]} from @param {() => SVGElement[]} draw */
  #layer(name, from, draw) {
    if (this.#stands(name, from)) return;
    patchChildren(this.layer(name), draw());
  }

  /** A drag moves one of many: the others are not even made, nor painted, since they lie on a plane of their own. @param {Device[]} devices @param {Map<string, TagPlace>} tags */
  #devices(devices, tags) {
    const { ids } = this.selection;
    if (this.#stands("devices", [devices, tags, ids])) return;
    const before = this.devicesDrawn;
    this.devicesDrawn = new Map(devices.map((device) => {
      const place = tags.get(device.id);
      const drawn = before.get(device.id);
      if (drawn && drawn.place === place) {
        if (drawn.device === device) return [device.id, drawn];
        if (isMoved(drawn.device, device)) {
          putOnPaper(drawn.part, device.at);
          return [device.id, { ...drawn, device }];
        }
      }
      const fresh = drawDevice(device, this.tables, place);
      fresh.classList.toggle("selected", ids.has(device.id));
      return [device.id, { device, place, part: drawn && become(drawn.part, fresh) ? drawn.part : fresh }];
    }));
    const drawn = [...this.devicesDrawn.values()];
    keepChildren(this.layer("devices"), drawn.filter(({ device }) => !ids.has(device.id)).map(({ part }) => part));
    keepChildren(this.layer("selected-devices"), drawn.filter(({ device }) => ids.has(device.id)).map(({ part }) => part));
  }

  /**
   * What was placed before, while what it was placed from is the same.
   * @template T @param {string} name @param {unknown[]} from @param {() => T} place @returns {T}
   */
  #once(name, from, place) {
    let kept = this.placed.get(name);
    if (!kept || !same(kept.from, from)) this.placed.set(name, (kept = { from, placed: place() }));
    return /** @type {T} */ (kept.placed);
  }

  #overlay() {
    const { overlay } = this.proof;
    if (overlay !== this.overlayDrawn) {
      this.overlayDrawn = overlay;
      this.unmarked.add("proof-under");
      this.overlay.show(overlay);
    }
    this.overlay.lay(this.proof.pieces);
  }

  /** Mark what is selected, and what the proof says of it. */
  #mark() {
    const { ids } = this.selection;
    const names = this.marked === ids ? this.unmarked : LAYERS.filter((name) => name !== "handles");
    for (const name of names) {
      for (const part of this.layer(name).querySelectorAll(name === "proof-under" ? "[data-device]" : "[data-id]")) this.#markPart(part);
    }
    this.marked = ids;
    this.unmarked.clear();
  }

  /** @param {Element} part of a layer, or of the overlay */
  #markPart(part) {
    const id = part.getAttribute("data-id") ?? part.getAttribute("data-device");
    if (id) part.classList.toggle("selected", this.selection.ids.has(id));
  }

  /** Show the whole level. */
  fit() {
    const points = pointsOf(this.store.level);
    this.view.fit(boxOf(points.length ? points : this.others(), 1));
  }
}

/** Whether a device is another but for its place. @param {Device} one @param {Device} two */
const isMoved = (one, two) => JSON.stringify({ ...one, at: 0 }) === JSON.stringify({ ...two, at: 0 });

/** Whether two lists hold the very same things. @param {unknown[]} one @param {unknown[]} two */
const same = (one, two) => one.every((value, i) => value === two[i]);
