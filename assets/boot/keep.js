// Keeps a copy of the program for starts without a network, and takes a new version on the user's
// word: fetched behind the scenes, announced, taken with one reload. Never unasked.
//
// Messages on BroadcastChannel `brinewright-<pageId>`:
//   page → program   {kind: "kept", ok, why}       whether a copy is kept, and why not
//                    {kind: "update-waiting"}      a new version is ready to be taken
//                    {kind: "update-failed", why}  it could not be fetched whole; this one goes on
//   program → page   {kind: "ask-update"}            say again what is known of all three
//                    {kind: "take-update"}         the user's word: takes it and reloads once

(() => {
  const { base, pageId, client } = window.brinewright;
  const channel = new BroadcastChannel(`brinewright-${pageId}`);
  const OFTEN = 6 * 3600 * 1000;
  let kept = null;
  let failed = null;
  let waiting = null;

  function say(message) {
    channel.postMessage(message);
  }

  function know(ok, why = "") {
    kept = { kind: "kept", ok, why };
    say(kept);
  }

  function announce(worker) {
    waiting = worker;
    failed = null;
    say({ kind: "update-waiting" });
  }

  channel.addEventListener("message", ({ data }) => {
    if (data?.kind === "ask-update") {
      if (kept) say(kept);
      if (failed) say(failed);
      if (waiting) announce(waiting);
    } else if (data?.kind === "take-update" && !waiting) {
      location.reload(); // a newer one may have taken over while this page stood open
    } else if (data?.kind === "take-update") {
      const once = { once: true };
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), once);
      waiting.postMessage({ kind: "take-over" });
    }
  });

  // What becomes of a worker that is being installed; the first one goes on by itself.
  function follow(worker, first) {
    const look = () => {
      if (worker.state === "installed" && !first) announce(worker);
      else if (worker.state === "activated") know(true);
      else if (worker.state === "redundant") {
        const why = "the files could not all be fetched or kept";
        if (first) know(false, why);
        else say((failed = { kind: "update-failed", why }));
      } else return;
      worker.removeEventListener("statechange", look);
    };
    worker.addEventListener("statechange", look);
  }

  async function keep() {
    if (!("serviceWorker" in navigator)) {
      know(false, "this browser, or an address without https, allows no offline copy");
      return;
    }
    const registration = await navigator.serviceWorker.register(`${base}sw.js?client=${client}`, {
      scope: base,
      updateViaCache: "none",
    });
    if (registration.active) know(true);
    if (registration.waiting && registration.active) announce(registration.waiting);
    if (registration.installing) follow(registration.installing, !registration.active);
    registration.addEventListener("updatefound", () => {
      follow(registration.installing, !registration.active);
    });
    // An app left open for days still learns of a new version.
    const look = () => registration.update().catch(() => {});
    setInterval(look, OFTEN);
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") look();
    });
  }

  // The first screen comes first: keeping a copy must not slow it down.
  window.addEventListener(
    "brinewright-usable",
    () => keep().catch((error) => know(Boolean(navigator.serviceWorker?.controller), String(error))),
    { once: true },
  );
})();
