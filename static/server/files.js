/**
 * A file that the server makes, fetched whole before the browser is asked to save it: a refusal is told in words, and
 * no half of a file is ever saved.
 */

import { call } from "./api.js";

/** @param {string} path @returns {Promise<{name: string, size: number}>} how it is named, and its bytes */
export async function saveFile(path) {
  const answer = await call(path);
  const name = /filename="([^"]+)"/.exec(answer.headers.get("Content-Disposition") ?? "")?.[1] ?? "studbay";
  const content = await answer.blob();
  const place = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = place;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(place), 60_000);
  return { name, size: content.size };
}
