// What every page does: say which page this is, switch colours, and say who is logged in.

import { call } from "/web/scripts/api.js";
import { the } from "/web/scripts/dom.js";

const page = document.body.dataset.page;
for (const link of document.querySelectorAll("[data-nav]")) {
  if (page.startsWith(link.dataset.nav.replace(/s$/, ""))) link.setAttribute("aria-current", "page");
}

const theme = the("theme");
theme.value = document.documentElement.dataset.theme ?? "";
theme.addEventListener("change", () => {
  if (theme.value) document.documentElement.dataset.theme = theme.value;
  else delete document.documentElement.dataset.theme;
  try {
    localStorage.setItem("theme", theme.value);
  } catch {
    // Kept nowhere, it holds for this page.
  }
});

if (page !== "log-in") {
  call("GET", "/caller").then(({ document: caller }) => {
    // Whoever may not plan or order finds those buttons switched off, not refused afterwards.
    for (const role of ["plan", "order"]) {
      document.body.classList.toggle(`may-not-${role}`, !caller.roles.includes(role));
    }
    if (!caller.public) return;
    the("who").textContent = caller.who;
    the("log-out").hidden = false;
  }).catch(() => {});
  the("log-out").addEventListener("click", async () => {
    await call("POST", "/log-out");
    location.assign("/log-in");
  });
}
