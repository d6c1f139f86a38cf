// One order: its lines in whole packs, money and VAT, and what each job needs by when.

import { get, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { day, money } from "/web/scripts/words.js";

const plan = location.pathname.split("/")[2];
the("to-plan").href = `/plans/${plan}`;

const FILES = [["order.pdf", "PDF"], ["order.xlsx", "XLSX"], ["order.csv", "CSV"], ["delivery-note.pdf", "Delivery note"]];

function deliveries(order) {
  const days = new Map();
  for (const line of order.lines) {
    const date = line.needed_by || "";
    days.set(date, [...(days.get(date) ?? []), line]);
  }
  const sorted = [...days].sort(([a], [b]) => (a || "9999").localeCompare(b || "9999"));
  return [h("h2", {}, "To be delivered"),
    h("p", { class: "quiet" }, "Each line by the day the first of its jobs needs it."),
    h("div", { class: "cols" }, sorted.map(([date, lines]) => h("section", { class: "card" },
      h("h3", {}, date ? `by ${day(date)}` : "no date given"),
      h("ul", {}, lines.map((line) => h("li", {}, `${line.quantity} × ${line.description}`,
        h("span", { class: "quiet" }, ` for ${line.jobs.join(", ") || "all jobs"}`)))))))];
}

try {
  const [order, all] = await Promise.all([get(`/v1/plans/${plan}/order`), get(`/v1/orders/${plan.replace("plan-", "order-")}`)]);
  the("title").textContent = `Order to ${order.merchant}`;
  fill(the("state"), h("span", { class: `tag ${all.state === "placed" ? "good" : "warning"}` }, all.state));
  fill(the("downloads"), FILES.map(([file, words]) => h("a", { class: "button", href: `/v1/plans/${plan}/${file}`, download: `${order.merchant} ${file}` }, words)),
    h("button", { type: "button", onclick: () => window.print() }, "Print"));
  const rows = order.lines.map((line) => [line.quantity, line.description, money(line.unit_price),
    money(line.line_total), line.jobs.join(", "), day(line.needed_by)]);
  const feet = [["", "Net", "", money(order.net), "", ""], ["", `VAT ${order.vat_percent} %`, "", money(order.vat), "", ""],
    ["", h("b", {}, "Total"), "", h("b", {}, money(order.total)), "", ""]];
  fill(the("lines"), table([["qty", "n"], ["item"], ["each", "n"], ["total", "n"], ["for jobs"], ["needed"]], rows,
    { caption: "Order lines", feet, stacks: true }));
  fill(the("deliveries"), deliveries(order));
} catch (fault) {
  the("lines").replaceChildren();
  show(fault);
}
