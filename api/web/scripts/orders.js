// The orders: one for each planned batch, placed when its plan is confirmed.

import { all, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { stateTag } from "/web/scripts/receiving.js";
import { moment } from "/web/scripts/words.js";

try {
  const [orders, plans, batches] = await Promise.all([all("/v1/orders"), all("/v1/plans"), all("/v1/batches")]);
  const runOf = new Map(plans.map((plan) => [plan.id, plan.run]));
  const jobsOf = new Map(batches.map((batch) => [batch.run, batch.jobs.join(", ")]));
  const rows = orders.map((order) => [
    h("a", { href: `/plans/${order.plan}/order` }, jobsOf.get(runOf.get(order.plan)) ?? order.id),
    stateTag(order.state), moment(order.changed),
    h("a", { href: `/plans/${order.plan}` }, "plan")]);
  fill(the("orders"), rows.length
    ? table([["for jobs"], ["state"], ["last changed"], ["made by"]], rows, { caption: "Orders", stacks: true })
    : h("div", { class: "empty" }, h("p", {}, "No orders yet: an order comes with each planned batch.")));
} catch (fault) {
  the("orders").replaceChildren();
  show(fault);
}
