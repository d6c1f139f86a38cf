// What came for an order: a form with one row a line, and the deliveries written down so far.

import { busy, call, get } from "/web/scripts/api.js";
import { fill, h, table } from "/web/scripts/dom.js";
import { day, moment, plural } from "/web/scripts/words.js";

const KINDS = { draft: "warning", placed: "good", "part received": "warning", received: "good" };
const COUNTS = [["good", "came good"], ["damaged", "came damaged"], ["short", "will not come"]];

export function stateTag(state) {
  return h("span", { class: `tag ${KINDS[state] ?? ""}` }, state);
}

/** The part of the page that is about what came for one order. `redraw` is called after a change. */
export async function receiving({ id, state, order }, several, redraw) {
  if (state === "draft" || state === "withdrawn") return null;
  const came = await get(`/v1/orders/${id}/deliveries`);
  const version = `"${(await get(`/v1/orders/${id}`)).version}"`;
  const said = h("div", { role: "status", class: "stack" });
  const fault = h("div");
  const open = came.lines.filter((line) => line.to_come > 0);
  const send = async (body) => {
    const { document } = await call("POST", `/v1/orders/${id}/deliveries`, { body,
      headers: { "If-Match": version, "Idempotency-Key": crypto.randomUUID?.() ?? `${Date.now()}-${Math.random()}` } });
    sessionStorage.setItem(`came-${id}`, JSON.stringify(document));
    await redraw();
  };
  const last = sessionStorage.getItem(`came-${id}`);
  if (last) {
    sessionStorage.removeItem(`came-${id}`);
    fill(said, outcome(JSON.parse(last)));
    requestAnimationFrame(() => said.scrollIntoView({ block: "center" }));
  }
  return h("section", { class: "card receiving" },
    h("h2", {}, several ? `Received from ${order.merchant}` : "Received"), said, fault,
    open.length ? h("details", { class: "needs-order", open: state !== "placed" && !last }, h("summary", {}, "Write down what came"), form(id, open, order, send, fault))
      : h("p", {}, "Every line is accounted for."),
    kept(came, send, fault));
}

function number(id, name, label, line) {
  return h("label", {}, label, h("input", { type: "number", id, name, min: 0, max: line.to_come, step: 1,
    inputmode: "numeric", placeholder: "0" }));
}

function form(order, open, { lines }, send, fault) {
  const rows = open.map((line) => {
    const key = `${order}-${line.line}`;
    const material = lines[line.line - 1].material;
    const row = h("div", { class: "came-line", role: "group", "aria-labelledby": `${key}-what`, "data-line": line.line },
      h("div", { id: `${key}-what` }, h("b", {}, line.description), h("div", { class: "quiet small" }, `${line.to_come} of ${line.ordered} to come`)),
      h("div", { class: "counts" }, COUNTS.map(([name, words]) => number(`${key}-${name}`, name, words, line)),
        h("label", {}, "note", h("input", { id: `${key}-note`, name: "note", maxlength: 2000 }))),
      material && h("details", {}, h("summary", {}, "came as another size or material"),
        h("div", { class: "counts" }, number(`${key}-instead`, "instead", "how many", line),
          h("label", {}, "size in mm", h("input", { id: `${key}-size`, name: "size", placeholder: "2700, or 1220 x 3050", inputmode: "text" })),
          h("label", {}, "material", h("input", { id: `${key}-material`, name: "material", value: material, maxlength: 200 })))));
    row.dataset.toCome = line.to_come;
    return row;
  });
  const made = h("form", { class: "stack" },
    h("p", { class: "quiet" }, "Fill in what came; what is left empty is still to come. A piece the merchant will bring again is still to come too."),
    h("div", { class: "row" }, h("button", { type: "button", onclick: () => {
      for (const row of rows) if (!value(row, "damaged") && !value(row, "short") && !value(row, "instead")) row.querySelector('[name="good"]').value = row.dataset.toCome;
    } }, "All of it came good")),
    h("div", { class: "row ends-level" },
      h("label", {}, "came on", h("input", { type: "date", id: `${order}-came`, name: "came", value: new Date().toLocaleDateString("sv") })),
      h("label", {}, "delivery note number", h("input", { id: `${order}-note`, name: "delivery_note", maxlength: 200 }))),
    rows,
    h("label", { class: "check" }, h("input", { type: "checkbox", id: `${order}-replan`, name: "replan", checked: true }),
      "plan the rest anew where a piece is missing"),
    h("div", { class: "row" }, h("button", { class: "main", type: "submit" }, "Write down what came")));
  made.addEventListener("submit", (event) => {
    event.preventDefault();
    const given = rows.map(read).filter(Boolean);
    busy(event.submitter ?? made.querySelector("button.main"), () => send({
      came: made.elements.namedItem("came").value || undefined,
      delivery_note: made.elements.namedItem("delivery_note").value, lines: given,
      ...(made.elements.namedItem("replan").checked ? { replan_seconds: 1 } : {}) }), fault);
  });
  return made;
}

function value(row, name) {
  return row.querySelector(`[name="${name}"]`)?.value.trim() ?? "";
}

/** Read one row; null where nothing is said of it. */
function read(row) {
  const line = { line: Number(row.dataset.line) };
  for (const [name] of COUNTS) if (Number(value(row, name)) > 0) line[name] = Number(value(row, name));
  const count = Number(value(row, "instead"));
  if (count > 0) {
    const [first, second] = value(row, "size").split(/[x×*]/i).map((text) => Number(text.trim().replace(",", ".")) || undefined);
    line.instead = [{ material: value(row, "material"), quantity: count,
      ...(second ? { width_mm: first, height_mm: second } : { length_mm: first }) }];
  }
  const note = value(row, "note");
  if (note) line.note = note;
  return Object.keys(line).length > 1 ? line : null;
}

function outcome({ state, delivery, run }) {
  const { touches, promised } = delivery;
  if (delivery.undoes) return [h("p", {}, "Taken back. The order is ", stateTag(state), ".")];
  return [h("p", {}, "Written down. The order is ", stateTag(state), touches.length ? "." : ": the plan has all it needs from this."),
    touches.length > 0 && h("div", { class: "fault" }, h("p", {}, h("strong", {}, "The plan is short of what these layouts are cut from")),
      h("ul", {}, touches.map((one) => h("li", {}, `${one.material}, layout ${one.layout}: ${plural(one.pieces, "piece")} ${one.kind === "short" ? "did not come" : "came damaged"}`,
        h("span", { class: "quiet" }, ` – job ${one.jobs.join(", ")}: ${one.parts.join(", ")}`)))),
      promised.length > 0 && h("p", {}, "Other plans count on offcuts of these: ", promised.map((one, at) => [at > 0 && ", ", h("a", { href: `/plans/${one.plan}` }, one.offcut)]))),
    run?.plan && h("p", {}, "The rest is planned anew from what came: ", h("a", { href: `/plans/${run.plan}` }, "look at the new plan"), ". Confirming it orders what is missing."),
    run && !run.plan && h("div", { class: "fault" }, h("p", {}, h("strong", {}, "No new plan: "), run.problems.map((one) => `${one.field} ${one.trouble}. ${one.remedy}. `))),
    !run && touches.length > 0 && h("p", {}, h("a", { href: `/saw/${delivery.plan}` }, "Plan the rest anew"), " when you are ready: at the saw, from what is cut by then.")];
}

function told(line, lines) {
  const words = { good: "good", damaged: "damaged", short: "will not come" };
  const counts = COUNTS.filter(([name]) => line[name]).map(([name]) => `${line[name]} ${words[name]}`);
  const instead = (line.instead ?? []).map((one) => `${one.quantity} as ${one.material} ${one.length_mm ?? `${one.width_mm} × ${one.height_mm}`} mm`);
  return `${lines[line.line - 1].description}: ${[...counts, ...instead].join(", ")}${line.note ? ` (${line.note})` : ""}`;
}

function kept({ deliveries, lines }, send, fault) {
  if (!deliveries.length) return null;
  const rows = deliveries.map((one) => [day(one.came), one.delivery_note || "–",
    one.undoes ? "takes a delivery back" : [h("ul", {}, one.lines.map((line) => h("li", {}, told(line, lines)))),
      one.new_plan && h("a", { href: `/plans/${one.new_plan}` }, "planned anew from it")],
    `${one.who}, ${moment(one.written)}`,
    one.undone ? "taken back" : !one.undoes && h("button", { type: "button", class: "plain needs-order",
      onclick: (event) => busy(event.target, () => send({ undoes: one.id }), fault) }, "Take back")]);
  return [h("h3", {}, "Deliveries so far"),
    table([["came"], ["note number"], ["what"], ["written down by"], [""]], rows, { caption: "Deliveries", stacks: true })];
}
