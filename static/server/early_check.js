/**
 * The proof of the plan, asked for before the page's other scripts have come: it is read by the time that they are here.
 */

/** @import { CheckAnswer } from "../plan/types.js" */

/** @returns {Promise<CheckAnswer>} */
async function asked() {
  const answer = await fetch(`/api/plans/${location.pathname.split("/").at(-1)}/check`);
  if (!answer.ok) throw new Error(`the server answered ${answer.status}`);
  return answer.json();
}

export const checked = asked();
checked.catch(() => {}); // the proof asks again
