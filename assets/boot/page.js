// The page's part of a start: runs the worker beside the client and lets the client take it over.
//
// `flet` (config.js) says where the client's things lie, `brinewrightSite` (site.js) where ours do.
// Gives `brinewright` = {pageId, base, version, client}, for bridge.js, keep.js and tests.
// In the address: `?start=ordinary` starts without the snapshot, `?client=canvaskit` without
// skwasm; both for finding out what is wrong with a device.

(() => {
  const site = window.brinewrightSite;
  const splash = window.brinewrightSplash;
  const base = new URL(".", document.baseURI).href;
  const pageId = crypto.randomUUID();
  const asked = new URLSearchParams(location.search);
  if (asked.get("client") === "canvaskit") flet.webRenderer = "canvaskit";

  // Which of the client's renderers this browser gets, by the rules of flutter_bootstrap.js.
  function renderer() {
    const blink = navigator.vendor === "Google Inc." || navigator.userAgent.includes("Edg/");
    const wasmGc = WebAssembly.validate(
      new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 95, 1, 120, 0]),
    );
    const canvas = document.createElement("canvas");
    const webGl = Boolean(canvas.getContext("webgl2") || canvas.getContext("webgl"));
    const whole =
      blink &&
      typeof ImageDecoder !== "undefined" &&
      typeof Intl.v8BreakIterator !== "undefined" &&
      typeof Intl.Segmenter !== "undefined";
    if (flet.webRenderer !== "canvaskit" && blink && wasmGc && webGl) {
      return whole ? "skwasm" : "skwasm_heavy";
    }
    return whole ? "chromium" : "full";
  }

  const facts = { base, pageId, version: site.version };
  window.brinewright = {
    ...facts,
    get client() {
      return renderer();
    },
  };

  // The client asks a foreign host for an animation runtime that no screen of ours uses. The
  // policy forbids it; here it is not even asked for, so that the console stays clean.
  for (const [owner, name] of [[Node.prototype, "appendChild"], [Element.prototype, "append"]]) {
    const stock = owner[name];
    owner[name] = function (...nodes) {
      for (const node of nodes) {
        const script = node instanceof HTMLScriptElement && node.src;
        if (script && new URL(script).origin !== location.origin) {
          queueMicrotask(() => node.dispatchEvent(new Event("error")));
          return node;
        }
      }
      return stock.apply(this, nodes);
    };
  }

  // ---- The worker, and the client that takes it over ----
  let worker = null;
  let client = null;
  const early = [];
  let settle = null;
  const connected = new Promise((resolve, reject) => (settle = { resolve, reject }));
  connected.catch(() => {});

  function run(ordinary) {
    worker = new Worker(`${base}${site.worker}`, { type: "module" });
    worker.onmessage = ({ data }) => heard(data);
    worker.onerror = (event) => failed("", event.message || "the worker could not be loaded");
    worker.postMessage({
      pyodide: `${base}pyodide/pyodide.mjs`,
      snapshot: `${base}${site.snapshot}`,
      archive: `${base}${site.archive}`,
      documentUrl: document.URL,
      facts,
      ordinary,
    });
  }

  function heard(data) {
    if (data instanceof Uint8Array) {
      if (client) client(data);
      else early.push(data);
    } else if (data === "initialized") settle.resolve();
    else if (data === "ready") usable();
    else if (data?.brinewright === "progress") splash.add(data.bytes);
    else if (data?.brinewright === "failed") failed(data.way, data.why);
  }

  // Whatever went wrong with the snapshot, the ordinary way may still work.
  function failed(way, why) {
    if (way === "snapshot") {
      console.warn(`The snapshot did not start, so the ordinary way is taken: ${why}`);
      worker.terminate();
      run(why || "the snapshot did not start");
      return;
    }
    splash.failed(why);
    settle.reject(new Error(why));
  }

  window.jsConnect = async (_appId, _args, onMessage) => {
    performance.mark("client loaded");
    await connected;
    client = onMessage;
    for (const message of early.splice(0)) client(message);
  };
  window.jsSend = async (_appId, data) => worker.postMessage(data, [data.buffer]);
  window.jsDisconnect = async () => {};

  function usable() {
    if (splash.gone) return;
    performance.mark("first screen sent");
    // The client has been given the screen; it is there for the eye with the next frame.
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        performance.mark("usable");
        splash.done();
        document.documentElement.dataset.usable = "yes";
        readable();
        window.dispatchEvent(new Event("brinewright-usable"));
      }),
    );
  }

  // A screen reader finds nothing until the client's semantics are on; its hidden button for it
  // wants a click at its very centre.
  function readable() {
    const button = document.querySelector("flt-semantics-placeholder");
    if (!button) return;
    const at = button.getBoundingClientRect();
    const centre = { clientX: at.x + at.width / 2, clientY: at.y + at.height / 2 };
    button.dispatchEvent(new MouseEvent("click", { bubbles: true, ...centre }));
  }

  // WebKit brings a page back from its cache with frames that never paint again.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted && navigator.vendor?.startsWith("Apple")) location.reload();
  });

  run(asked.get("start") === "ordinary" ? "asked for in the address" : null);
  const start = document.createElement("script");
  start.src = `${base}flutter_bootstrap.js`;
  document.body.append(start);
})();
