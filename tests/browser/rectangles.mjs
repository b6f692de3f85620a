// What has no room on the page, told by rectangles: run in the page.

/** The faults of the page as it is now: text that is cut off, text that something lies over, text that runs into other text. */
export function faults() {
  const found = [];
  // Behind a dialog nothing counts.
  const root = document.querySelector("dialog[open]") ?? document.body;
  const name = (element) => {
    const named = element.closest("[id]");
    return `${named ? `#${named.id}` : element.tagName.toLowerCase()} “${element.textContent.trim().slice(0, 40)}”`;
  };
  const [ACROSS, DOWN] = [["left", "right", "overflowX"], ["top", "bottom", "overflowY"]];
  // Letters are less high than the lines that they stand in; their boxes may overlap by this part.
  const LEADING = 0.3;
  const SLACK = 1;
  const scrolls = (style, [, , overflow]) => ["auto", "scroll"].includes(style[overflow]);
  const seen = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !element.closest(".hidden, [aria-hidden=true], .told");
  // The part of a text that its containers let through, and by what it is cut.
  const cut = (element, rect) => {
    let inside = true;
    for (let box = element; box && box !== document.documentElement; box = box.parentElement) {
      const style = getComputedStyle(box);
      const [fixed, contained] = [style.position === "fixed", style.contain.includes("paint")];
      if (style.display !== "inline") {
        const limits = box.getBoundingClientRect();
        for (const axis of [ACROSS, DOWN]) {
          const [least, most, overflow] = axis;
          const slack = axis === DOWN ? LEADING * rect.height : SLACK;
          if (style[overflow] === "visible" && !contained) continue;
          const out = rect[least] < limits[least] - slack || rect[most] > limits[most] + slack;
          if (out && scrolls(style, axis)) inside = false;
          else if (out && inside) found.push(`cut off: ${name(element)} by ${box.id || box.className || box.tagName} ${Math.round(rect[least])}–${Math.round(rect[most])} in ${Math.round(limits[least])}–${Math.round(limits[most])}`);
          if (out) return false;
        }
      }
      if (fixed) break;
    }
    if (rect.right > innerWidth + SLACK || rect.left < -SLACK) {
      found.push(`beside the window: ${name(element)}`);
      return false;
    }
    return inside;
  };
  const texts = [];
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const { currentNode: node } = walker;
    const element = node.parentElement;
    if (!node.data.trim() || !seen(element) || element.closest("script, style, option, textarea, noscript")) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const rect of range.getClientRects()) {
      if (rect.width > 1 && cut(element, rect)) texts.push({ element, rect });
    }
  }
  for (const box of root.querySelectorAll("input, select, button")) {
    if (!seen(box) || ["range", "checkbox", "file", "radio"].includes(box.type)) continue;
    const rect = box.getBoundingClientRect();
    if (rect.width > 1 && cut(box, rect) && box.scrollWidth > box.clientWidth + SLACK) found.push(`longer than its box: ${name(box)} ${box.value}`);
  }
  // What lies over a text.
  for (const { element, rect } of texts) {
    const at = [(rect.left + rect.right) / 2, (rect.top + rect.bottom) / 2];
    if (at[0] < 0 || at[1] < 0 || at[0] > innerWidth || at[1] > innerHeight) continue;
    const top = document.elementFromPoint(...at);
    if (!top || top.contains(element) || element.contains(top) || getComputedStyle(element).pointerEvents === "none") continue;
    // What sticks while a text scrolls beneath it.
    let stuck = top;
    while (stuck && getComputedStyle(stuck).position !== "sticky") stuck = stuck.parentElement;
    if (!stuck) found.push(`${name(top)} over ${name(element)}`);
  }
  // Texts that run into each other.
  const order = texts.toSorted((a, b) => a.rect.top - b.rect.top);
  for (let i = 0; i < order.length; i++) {
    for (let j = i + 1; j < order.length && order[j].rect.top < order[i].rect.bottom; j++) {
      const [{ rect: a, element: one }, { rect: b, element: other }] = [order[i], order[j]];
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (across > SLACK && down > LEADING * 1.5 * Math.min(a.height, b.height) && top(one, a) && top(other, b)) found.push(`${name(one)} runs into ${name(other)}`);
    }
  }
  function top(element, rect) {
    const at = document.elementFromPoint((rect.left + rect.right) / 2, (rect.top + rect.bottom) / 2);
    return !at || at.contains(element) || element.contains(at);
  }
  return found;
}
