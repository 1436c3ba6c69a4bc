// The splash: how far the first, large load has come, and words when it fails.
//
// Gives `brinewrightSplash` = {add(bytes), failed(why), done(), gone}. Words of failure end nothing:
// a start that comes through after all still removes the splash.

window.brinewrightSplash = (() => {
  const splash = document.getElementById("splash");
  const bar = document.getElementById("splash-bar");
  const words = document.getElementById("splash-words");
  const total = window.brinewrightSite.firstLoadBytes;
  let loaded = 0;
  let shown = 0;
  const PATIENCE_MS = 60_000;
  const DOUBT_MS = 8_000;
  let stall = setTimeout(stalled, PATIENCE_MS);
  const self = { gone: false, add, failed, done };

  if (navigator.serviceWorker?.controller) {
    words.textContent = "Starting from the copy on this device.";
  }

  function add(bytes) {
    loaded += bytes;
    clearTimeout(stall);
    stall = setTimeout(stalled, PATIENCE_MS);
    const part = Math.min(0.98, loaded / total);
    if (part - shown < 0.01) return;
    shown = part;
    bar.style.transform = `scaleX(${part})`;
  }

  function failed(why) {
    if (self.gone) return;
    splash.classList.add("failed");
    const network = navigator.onLine
      ? ""
      : "There is no network; the very first start needs one. ";
    words.textContent = `Brinewright did not start. What you saved is safe on this device. ${network}`;
    document.getElementById("splash-why").textContent = `What went wrong: ${why}`;
    document.getElementById("splash-retry").hidden = false;
  }

  function stalled() {
    failed("nothing has come for a minute");
  }

  function done() {
    self.gone = true;
    clearTimeout(stall);
    splash.remove();
    watch.disconnect();
  }

  document.getElementById("splash-retry").addEventListener("click", () => location.reload());
  // A start from this device's own copy is over before there is anything to say.
  setTimeout(() => splash.classList.add("slow"), 1500);
  const watch = new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) add(entry.encodedBodySize || 0);
  });
  watch.observe({ type: "resource", buffered: true });
  const doubt = (why) => setTimeout(() => failed(why), DOUBT_MS);
  window.addEventListener("unhandledrejection", ({ reason }) => doubt(String(reason)));
  window.addEventListener(
    "error",
    ({ target, message }) => {
      if (target?.tagName === "SCRIPT") failed(`${target.src} could not be loaded`);
      else if (message) doubt(message);
    },
    true,
  );
  return self;
})();
