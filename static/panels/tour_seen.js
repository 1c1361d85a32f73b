/**
 * Whether the tour was seen or left in this browser: kept here, never sent.
 */

const KEY = "studbay-tour";

export function wasSeen() {
  try {
    return localStorage.getItem(KEY) === "seen";
  } catch {
    return true; // a browser that keeps nothing would show it each time
  }
}

export function noteSeen() {
  try {
    localStorage.setItem(KEY, "seen");
  } catch {
    // Nothing is kept; wasSeen says seen.
  }
}
