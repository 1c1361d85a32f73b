/**
 * The fast path of drawing again: what has not changed stays on the page as it is, so that the browser styles, lays
 * out and paints only what has. The clear path is replaceChildren, with the same outcome.
 */

/**
 * Let an element hold new children; those equal to the ones that stand at their place are not put in.
 * @param {Element} parent @param {Element[]} children
 */
export function patchChildren(parent, children) {
  const standing = [...parent.children];
  children.forEach((child, i) => {
    const old = standing[i];
    if (!old) parent.append(child);
    else if (!old.isEqualNode(child)) old.replaceWith(child);
  });
  for (const left of standing.slice(children.length)) left.remove();
}
