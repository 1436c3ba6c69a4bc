// The page's own script, first of all: shows the splash's progress, starts the worker beside the
// client, lets the client take it over, and sees to the service worker and its updates.
//
// `flet` (config.js) says where things lie. `window.brinewright` = {pageId, base, mark()}.

(() => {
  const site = window.brinewrightSite;
  const base = new URL(".", document.baseURI).href;
  const pageId = crypto.randomUUID();
  const asked = new URLSearchParams(location.search);
  window.brinewright = { pageId, base, version: site.version };

  // The client asks one foreign host for an animation runtime that no screen of ours uses. The
  // policy would forbid it with an error; here it is not asked for at all.
  for (const [owner, name] of [[Node.prototype, "appendChild"], [Element.prototype, "append"]]) {
    const stock = owner[name];
    owner[name] = function (...nodes) {
      for (const node of nodes) {
        if (node instanceof HTMLScriptElement && node.src && !node.src.startsWith(location.origin)) {
          queueMicrotask(() => node.dispatchEvent(new Event("error")));
          return node;
        }
      }
      return stock.apply(this, nodes);
    };
  }

  // ---- Splash ----
  const splash = document.getElementById("splash");
  const bar = document.getElementById("splash-bar");
  const words = document.getElementById("splash-words");
  let loaded = 0;
  let shown = 0;

  function progress(bytes) {
    loaded += bytes;
    const part = Math.min(0.98, loaded / site.firstLoadBytes);
    if (part - shown < 0.01) return;
    shown = part;
    if (bar) bar.style.transform = `scaleX(${part})`;
  }

  function failed(why) {
    if (!splash?.isConnected) return;
    splash.classList.add("failed");
    words.textContent =
      "Brinewright did not start. Your batches are safe on this device. " +
      (navigator.onLine ? "" : "There is no network; the first start needs one. ") +
      `Try again; if it keeps happening, this is what went wrong: ${why}`;
    document.getElementById("splash-retry").hidden = false;
  }

  document.getElementById("splash-retry").addEventListener("click", () => location.reload());
  setTimeout(() => splash.classList.add("slow"), 1500);
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) progress(entry.encodedBodySize || 0);
  }).observe({ type: "resource", buffered: true });
  window.addEventListener("error", (event) => {
    if (event.target?.tagName === "SCRIPT") failed(`${event.target.src} could not be loaded`);
  }, true);

  function usable() {
    performance.mark("usable");
    splash.remove();
    document.documentElement.dataset.usable = "yes";
    // A screen reader finds nothing until the client's semantics are on.
    const placeholder = document.querySelector("flt-semantics-placeholder");
    if (placeholder) {
      const at = placeholder.getBoundingClientRect();
      placeholder.dispatchEvent(
        new MouseEvent("click", {
          bubbles: true,
          clientX: at.x + at.width / 2,
          clientY: at.y + at.height / 2,
        }),
      );
    }
  }

  // ---- Worker ----
  const worker = new Worker(`${base}${site.worker}`, { type: "module" });
  let client = null;
  let initialized = null;
  const early = [];
  const connected = new Promise((resolve, reject) => (initialized = { resolve, reject }));
  connected.catch(() => {});

  worker.onmessage = ({ data }) => {
    if (data instanceof Uint8Array) {
      if (client) client(data);
      else early.push(data);
    } else if (data === "initialized") initialized.resolve();
    else if (data === "ready") usable();
    else if (data?.brinewright === "progress") progress(data.bytes);
    else if (data?.brinewright === "failed") {
      failed(data.why);
      initialized.reject(new Error(data.why));
    }
  };
  worker.onerror = (event) => failed(event.message || "the worker could not be loaded");
  worker.postMessage({
    pyodide: `${base}pyodide/pyodide.mjs`,
    snapshot: `${base}${site.snapshot}`,
    archive: `${base}${site.archive}`,
    documentUrl: document.URL,
    facts: { base, pageId, version: site.version },
    ordinary: asked.has("ordinary"),
  });

  // Called by the client.
  window.jsConnect = async (_appId, _args, onMessage) => {
    await connected;
    client = onMessage;
    for (const message of early.splice(0)) client(message);
  };
  window.jsSend = async (_appId, data) => worker.postMessage(data, [data.buffer]);
  window.jsDisconnect = async () => {};

  // WebKit brings a page back from its cache with frames that never paint again.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted && navigator.vendor?.startsWith("Apple")) location.reload();
  });

  // ---- Service worker ----
  // The page tells which of the client's renderers this browser uses, so that only those files
  // are kept. The rules are those of flutter_bootstrap.js.
  function renderer() {
    const blink = navigator.vendor === "Google Inc." || navigator.userAgent.includes("Edg/");
    const wasmGc = WebAssembly.validate(
      new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 95, 1, 120, 0]),
    );
    const canvas = document.createElement("canvas");
    const webGl = Boolean(canvas.getContext("webgl2") || canvas.getContext("webgl"));
    const icu = typeof Intl.v8BreakIterator !== "undefined" && typeof Intl.Segmenter !== "undefined";
    const codecs = typeof ImageDecoder !== "undefined" && blink;
    if (flet.webRenderer !== "canvaskit" && blink && wasmGc && webGl) {
      return icu && codecs ? "skwasm" : "skwasm_heavy";
    }
    return icu && codecs ? "chromium" : "full";
  }

  const channel = new BroadcastChannel(`brinewright-${pageId}`);
  let announced = null;
  function announce(registration) {
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    announced = registration;
    channel.postMessage({ kind: "update-waiting" });
  }

  channel.addEventListener("message", ({ data }) => {
    if (data?.kind === "ask-update" && announced) announce(announced);
    if (data?.kind === "take-update" && announced?.waiting) {
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), {
        once: true,
      });
      announced.waiting.postMessage({ kind: "take-over" });
    }
  });

  async function keep() {
    if (!("serviceWorker" in navigator)) return;
    const registration = await navigator.serviceWorker.register(
      `${base}sw.js?client=${renderer()}`,
      { scope: base, updateViaCache: "none" },
    );
    announce(registration);
    registration.addEventListener("updatefound", () => {
      const fresh = registration.installing;
      fresh?.addEventListener("statechange", () => {
        if (fresh.state === "installed") announce(registration);
      });
    });
    // An app left open for days still learns of a new version.
    setInterval(() => registration.update().catch(() => {}), 6 * 3600 * 1000);
  }

  // The first screen comes first; keeping a copy must not slow it down.
  const begun = setInterval(() => {
    if (document.documentElement.dataset.usable !== "yes" && splash.isConnected &&
        !splash.classList.contains("failed")) return;
    clearInterval(begun);
    keep().catch((error) => console.warn(`No offline copy is kept: ${error}`));
  }, 250);
})();
