// Every plan of the firm, the newest first.

import { all, show } from "/web/scripts/api.js";
import { fill, h, table, the } from "/web/scripts/dom.js";
import { moment, money, pence } from "/web/scripts/words.js";

const KINDS = { draft: "warning", confirmed: "good" };

function row(plan, jobs) {
  const gap = pence(plan.net_cost) - pence(plan.lower_bound);
  return [h("a", { href: `/plans/${plan.id}` }, jobs.length ? jobs.join(", ") : "cutting request"),
    h("span", { class: `tag ${KINDS[plan.state] ?? ""}` }, plan.state), moment(plan.created),
    money(plan.net_cost), gap > 0 ? money(gap / 100) : "proven"];
}

try {
  const [plans, batches] = await Promise.all([all("/v1/plans"), all("/v1/batches")]);
  const jobsOf = new Map(batches.map((batch) => [batch.run, batch.jobs]));
  const made = plans.filter((plan) => plan.net_cost !== null);
  const heads = [["jobs"], ["state"], ["made"], ["net cost", "n"], ["at most to be saved", "n"]];
  fill(the("plans"), made.length
    ? table(heads, made.map((plan) => row(plan, jobsOf.get(plan.run) ?? [])), { caption: "Plans", stacks: true })
    : h("div", { class: "empty" }, h("p", {}, "No plans yet. Choose jobs and plan them together.")));
} catch (fault) {
  the("plans").replaceChildren();
  show(fault);
}
