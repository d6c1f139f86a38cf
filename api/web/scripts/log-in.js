// The page on which a key is entered; the service keeps it in a cookie that scripts cannot read.

import { busy, call, clear } from "/web/scripts/api.js";
import { the } from "/web/scripts/dom.js";

the("log-in").addEventListener("submit", (event) => {
  event.preventDefault();
  clear();
  busy(event.submitter ?? the("log-in").querySelector("button"), async () => {
    await call("POST", "/log-in", { body: { key: the("key").value.trim() } });
    const next = new URLSearchParams(location.search).get("next") ?? "/";
    // Only a path of our own: "//elsewhere" and "/\\elsewhere" would lead away.
    location.assign(/^\/(?![/\\])/.test(next) ? next : "/");
  });
});
the("key").focus();
