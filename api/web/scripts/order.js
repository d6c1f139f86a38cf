// A plan's orders: lines in whole packs, money and VAT, what each job needs by when, what came.

import { all, get, lost } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { receiving, stateTag } from "/web/scripts/receiving.js";
import { day, money } from "/web/scripts/words.js";

const plan = location.pathname.split("/")[2];
the("to-plan").href = `/plans/${plan}`;

const FILES = [["order.pdf", "PDF"], ["order.xlsx", "XLSX"], ["order.csv", "CSV"], ["delivery-note.pdf", "Delivery note"]];

function needed(lines) {
  const days = new Map();
  for (const line of lines) {
    const date = line.needed_by || "";
    days.set(date, [...(days.get(date) ?? []), line]);
  }
  const sorted = [...days].sort(([a], [b]) => (a || "9999").localeCompare(b || "9999"));
  return [h("h2", {}, "To be delivered"),
    h("p", { class: "quiet" }, "Each line by the day the first of its jobs needs it."),
    h("div", { class: "cols" }, sorted.map(([date, items]) => h("section", { class: "card" },
      h("h3", {}, date ? `by ${day(date)}` : "no date given"),
      h("ul", {}, items.map((line) => h("li", {}, `${line.quantity} × ${line.description}`,
        h("span", { class: "quiet" }, ` for ${line.jobs.join(", ") || "all jobs"}`)))))))];
}

function lines({ id, order }, several) {
  const rows = order.lines.map((line) => [line.quantity, line.description, money(line.unit_price),
    money(line.line_total), line.jobs.join(", "), day(line.needed_by)]);
  const feet = [["", "Net", "", money(order.net), "", ""], ["", `VAT ${order.vat_percent} %`, "", money(order.vat), "", ""],
    ["", h("b", {}, "Total"), "", h("b", {}, money(order.total)), "", ""]];
  return h("section", { class: "card" }, several && h("div", { class: "row apart" }, h("h2", {}, order.merchant),
    h("span", { class: "row no-print" }, h("a", { class: "button", href: `/v1/orders/${id}/order.csv`, download: `${order.merchant} order.csv` }, "CSV"),
      h("a", { class: "button", href: `/v1/orders/${id}/order.xml`, download: `${order.merchant} order.xml` }, "XML"))),
    table([["qty", "n"], ["item"], ["each", "n"], ["total", "n"], ["for jobs"], ["needed"]], rows,
      { caption: `Lines of the order to ${order.merchant}`, feet, stacks: true }));
}

async function draw() {
  const found = await all(`/v1/orders?plan=${plan}`);
  if (!found.length) await get(`/v1/plans/${plan}/order`); // says why there is none
  const orders = await Promise.all(found.map((one) => get(`/v1/orders/${one.id}`)));
  orders.sort((a, b) => a.id.localeCompare(b.id));
  const merchants = orders.map((one) => one.order.merchant);
  the("title").textContent = `Order to ${merchants.join(" and ")}`;
  fill(the("state"), orders.map((one) => stateTag(one.state)));
  fill(the("downloads"), FILES.map(([file, words]) => h("a", { class: "button", href: `/v1/plans/${plan}/${file}`, download: `${merchants[0]} ${file}` }, words)),
    orders.length === 1 && h("a", { class: "button", href: `/v1/orders/${orders[0].id}/order.xml`, download: `${merchants[0]} order.xml` }, "XML"),
    h("button", { type: "button", onclick: () => window.print() }, "Print"));
  fill(the("lines"), orders.map((one) => lines(one, orders.length > 1)));
  fill(the("deliveries"), needed(orders.flatMap((one) => one.order.lines.filter((line) => !line.charge))));
  fill(the("received"), await Promise.all(orders.map((one) => receiving(one, orders.length > 1, draw))));
}

try {
  await draw();
} catch (fault) {
  lost(fault);
}
