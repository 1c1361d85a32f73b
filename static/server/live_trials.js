/**
 * The drag's own line to the server: a WebSocket, since a call by `fetch` costs more than its answer does.
 */

/** @import { Device } from "../plan/types.js" */
/** @import { TouchedAnswer } from "./touched.js" */

import { Away, Refused } from "./api.js";

const QUIET = 60_000; // ms without a question until it is let go
const PATIENCE = 45_000; // ms that an answer is awaited
const AGAIN = 5_000; // ms until a lost one is opened anew

/** @typedef {{answer: TouchedAnswer, revision: number}} Answered */
/** @typedef {{status: number, detail: string, errors: {at: string, message: string}[]}} Problem */
/** @typedef {{resolve: (answered: Answered) => void, reject: (why: Error) => void}} Waiting */

export class LiveTrials {
  /** @param {string} planId */
  constructor(planId) {
    this.url = `${location.origin.replace(/^http/, "ws")}/api/plans/${planId}/trial/live`;
    /** @type {WebSocket | null} */
    this.socket = null;
    /** @type {Waiting | null} the one question in flight */
    this.waiting = null;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.timer = undefined;
    this.notBefore = 0; // ms of the page's clock
  }

  /** Whether a question can be asked now. */
  get isOpen() {
    return this.socket?.readyState === WebSocket.OPEN;
  }

  /** Open it, unless it is open or about to be, or was lost just now. */
  open() {
    if (this.socket || performance.now() < this.notBefore) return;
    const socket = new WebSocket(this.url);
    socket.onmessage = (event) => this.#take(event.data);
    socket.onclose = () => this.#lose(socket);
    this.socket = socket;
    this.#closeAfter(QUIET);
  }

  /** Ask, while it is open. @param {string} level @param {Device} device @param {number} scale px a foot @returns {Promise<Answered>} */
  ask(level, device, scale) {
    return new Promise((resolve, reject) => {
      this.waiting = { resolve, reject };
      this.socket?.send(JSON.stringify({ level, device, scale }));
      this.#closeAfter(PATIENCE);
    });
  }

  /** @param {string} text */
  #take(text) {
    /** @type {Answered & {problem?: Problem}} */
    const said = JSON.parse(text);
    const { waiting } = this;
    this.waiting = null;
    this.#closeAfter(QUIET);
    if (said.problem) waiting?.reject(new Refused(said.problem.status, said.problem.detail, said.problem.errors));
    else waiting?.resolve(said);
  }

  /** @param {number} ms */
  #closeAfter(ms) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.socket && this.#lose(this.socket), ms);
  }

  /** It is closed, or no answer comes by it. @param {WebSocket} socket */
  #lose(socket) {
    if (socket !== this.socket) return;
    clearTimeout(this.timer);
    this.socket = null;
    this.notBefore = performance.now() + AGAIN;
    socket.close();
    this.waiting?.reject(new Away("the server does not answer"));
    this.waiting = null;
  }
}
