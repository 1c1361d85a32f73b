/** Times as a reader's own clock and language say them; the exact time stays in the title. */

const STEPS = /** @type {[Intl.RelativeTimeFormatUnit, number][]} */ ([
  ["minute", 60],
  ["hour", 3600],
  ["day", 86400],
]);

/** Rewrite every time element of the page. */
export function tellTimes() {
  const words = new Intl.RelativeTimeFormat("en", { numeric: "auto" });
  for (const element of document.querySelectorAll("time")) {
    const when = new Date(element.dateTime);
    const seconds = (when.getTime() - Date.now()) / 1000;
    element.title = when.toLocaleString();
    element.textContent = relative(words, when, seconds);
  }
}

/**
 * @param {Intl.RelativeTimeFormat} words
 * @param {Date} when
 * @param {number} seconds from now, negative in the past
 */
function relative(words, when, seconds) {
  const age = Math.abs(seconds);
  if (age < 60) return "just now";
  if (age > 14 * 86400) return when.toLocaleDateString();
  const [unit, length] = STEPS.findLast(([, length]) => age >= length) ?? STEPS[0];
  return words.format(Math.trunc(seconds / length), unit);
}
