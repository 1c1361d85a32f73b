/**
 * The picture behind the drawing, and the lens that shows it larger where two places are picked.
 * It is an image of its own behind the planes, so that dragging and drawing never paint it anew; floors are left clear.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Point } from "../plan/types.js" */
/** @import { Underlays } from "../server/underlays.js" */
/** @import { View } from "./view.js" */

import { cornersOf, matrixOf } from "../plan/placing.js";

const CRISP = 2.5; // screen pixels a pixel, from which on pixels are drawn as squares
const [LENS, LARGER] = [150, 5]; // px across; times the drawing's scale

export class UnderlayPicture {
  /** @param {HTMLElement} board @param {View} view @param {Underlays} underlays */
  constructor(board, view, underlays) {
    this.board = board;
    this.view = view;
    this.underlays = underlays;
    this.image = picture("underlay");
    this.inLens = picture("");
    this.lens = document.createElement("div");
    this.lens.className = "lens";
    this.lens.hidden = true;
    this.lens.append(this.inLens);
    board.before(this.image);
    board.after(this.lens);
    underlays.listen(() => this.draw());
    view.listen(() => this.draw());
    this.draw();
  }

  /** The corners of the picture in view; none where none is shown. @returns {Point[]} */
  get corners() {
    const { placement, picture: known } = this.underlays;
    return placement?.shown && known ? cornersOf(placement, known) : [];
  }

  draw() {
    const { placement, picture: known } = this.underlays;
    const shown = Boolean(placement?.shown && known);
    this.image.hidden = !shown;
    this.board.classList.toggle("traced", shown);
    if (!placement || !known || !shown) return;
    show(this.image, known.address, matrixOf(placement, this.view.scale, this.view.origin));
    this.image.style.opacity = String(1 - placement.fade);
  }

  /** Show the lens at a place; null puts it away. @param {Point | null} at */
  look(at) {
    const { placement, picture: known } = this.underlays;
    this.lens.hidden = !at || !placement?.shown || !known;
    if (!at || !placement || !known || this.lens.hidden) return;
    const zoom = this.view.scale * LARGER;
    show(this.inLens, known.address, matrixOf(placement, zoom, { x: LENS / 2 - at[0] * zoom, y: LENS / 2 + at[1] * zoom }));
    const { x, y } = this.view.toScreen(at);
    const { width } = this.view.size;
    const left = x + LENS + 34 > width ? x - LENS - 26 : x + 26;
    this.lens.style.transform = `translate(${Math.round(Math.max(4, left))}px, ${Math.round(Math.max(4, y - LENS - 26))}px)`;
  }
}

/** The picture behind a page's drawing, made when it is first wanted. @param {Desk} desk */
export const pictureBehind = (desk) => (desk.picture ??= new UnderlayPicture(desk.drawing.board, desk.view, desk.underlays));

/** @param {string} name */
function picture(name) {
  const image = new Image();
  image.className = name;
  image.alt = "";
  image.draggable = false;
  image.hidden = true;
  return image;
}

/** @param {HTMLImageElement} image @param {string} address @param {number[]} matrix */
function show(image, address, matrix) {
  image.hidden = false;
  if (image.getAttribute("src") !== address) image.src = address;
  image.style.transform = `matrix(${matrix.map((value) => +value.toPrecision(9)).join(",")})`;
  image.classList.toggle("crisp", Math.hypot(matrix[0] ?? 0, matrix[1] ?? 0) > CRISP);
}
