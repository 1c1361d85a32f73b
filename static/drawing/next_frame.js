/**
 * Work on what is drawn: asked for often, done once, in the next frame. What an event changes at once the browser lays
 * out before the event is over, and then again in the frame.
 */

/** @param {() => void} work @returns {() => void} asks for it */
export function inNextFrame(work) {
  let waiting = false;
  return () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      work();
    });
  };
}
