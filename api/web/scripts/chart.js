// Cost and bound over time as a small drawing; the figures beside it say the same in words.

import { money } from "/web/scripts/words.js";

const SVG = "http://www.w3.org/2000/svg";

function node(name, attributes, text) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text) made.textContent = text;
  return made;
}

/** Draw points of [seconds, cost, bound]: cost as steps above, the proven bound below. */
export function chart(seen, { width = 640, height = 150 } = {}) {
  const [left, right, top, bottom] = [8, 110, 12, 24];
  const end = Math.max(seen.at(-1)[0], 0.1);
  const values = seen.flatMap(([, cost, bound]) => [cost, bound]);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const x = (seconds) => left + ((width - left - right) * seconds) / end;
  const y = (value) => top + ((height - top - bottom) * (high - value)) / Math.max(high - low, 0.01);
  const steps = (at) => seen.map((point, index) => (index
    ? `H${x(point[0]).toFixed(1)}V${y(point[at]).toFixed(1)}` : `M${x(point[0]).toFixed(1)} ${y(point[at]).toFixed(1)}`)).join("");
  const made = node("svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": "Net cost and proven bound over time" });
  const [, cost, bound] = seen.at(-1);
  const apart = Math.max(y(cost) + 15, y(bound) + 4);
  made.append(
    node("path", { d: `${steps(1)}`, class: "cost" }), node("path", { d: `${steps(2)}`, class: "bound" }),
    node("text", { x: width - right + 8, y: y(cost) + 4 }, `cost ${money(cost)}`),
    node("text", { x: width - right + 8, y: apart }, `bound ${money(bound)}`),
    node("text", { x: left, y: height - 6 }, "0 s"),
    node("text", { x: width - right, y: height - 6, "text-anchor": "end" }, `${end.toFixed(1)} s`));
  return made;
}
