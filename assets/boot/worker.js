// The worker that runs Python. Started by page.js at once, beside the client.
//
// Its first message is {pyodide, snapshot, archive, documentUrl, facts, ordinary}; later ones are
// the client's own. It starts from the memory snapshot, or, when `ordinary` says why not, the
// ordinary way. When a start fails it says so and is replaced: page.js tries the ordinary way in a
// new worker, since this one may hold half a Python.
//
// What Python finds in this worker's global scope (`js.brinewright`, `js.brinewrightReady`):
//   brinewright.base      address of the site's folder, ends with "/"
//   brinewright.pageId    name of this page's channel: BroadcastChannel `brinewright-<pageId>`
//   brinewright.version   hash of the build
//   brinewright.start     {way: "snapshot" | "ordinary", why}: for the diagnostics
//   brinewrightReady()    to be called once, when the first screen stands
//   brinewrightPython     this worker's Pyodide, for measuring and tests

const waiting = [];
const flet_js = { args: null };
let loading = false;

// Nothing here asks another origin. The page's policy does not reach into a worker, and a host may
// send no headers, so the means to do it are bound to the own origin here.
const stockFetch = self.fetch;
self.fetch = (what, how) => {
  const url = new URL(what instanceof Request ? what.url : what, self.location.href);
  if (url.origin !== self.location.origin && !["blob:", "data:"].includes(url.protocol)) {
    return Promise.reject(new TypeError("This program asks no other origin."));
  }
  return stockFetch(what, how);
};
for (const name of ["XMLHttpRequest", "WebSocket", "EventSource", "WebTransport"]) {
  delete self[name];
}

self.brinewrightReady = () => self.postMessage("ready");

function tell(kind, detail) {
  self.postMessage({ brinewright: kind, ...detail });
}

// A stream that counts what passes, for the bar on the splash.
function counted(response) {
  return response.body.pipeThrough(
    new TransformStream({
      transform(chunk, out) {
        tell("progress", { bytes: chunk.length });
        out.enqueue(chunk);
      },
    }),
  );
}

async function fetched(url) {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url.split("/").pop()}: HTTP ${response.status}`);
  return response;
}

async function bytesOf(stream) {
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// It travels packed; the service worker keeps it unpacked.
function snapshotFrom(response) {
  if (response.headers.has("X-Unpacked")) return response.arrayBuffer().then((b) => new Uint8Array(b));
  return bytesOf(counted(response).pipeThrough(new DecompressionStream("gzip")));
}

// Compiles Pyodide's own WebAssembly while the snapshot is read, and makes room for it: a snapshot
// larger than Pyodide's first memory does not fit, and since that memory is exported it can only
// be grown once the module has been instantiated. Returns the module to come, and what puts
// everything back.
function prepare(wasm, size) {
  const { instantiateStreaming } = WebAssembly;
  const compiled = WebAssembly.compileStreaming(fetch(wasm));
  compiled.catch(() => {}); // told when it is waited for
  size.catch(() => {});
  const quick = self.fetch;
  self.fetch = (what, how) => (String(what) === wasm ? new Response() : quick(what, how));
  WebAssembly.instantiateStreaming = async (_response, imports) => {
    const module = await compiled;
    const instance = await WebAssembly.instantiate(module, imports);
    const { memory } = instance.exports;
    const missing = (await size) - memory.buffer.byteLength;
    if (missing > 0) memory.grow(Math.ceil(missing / 65536));
    return { instance, module };
  };
  const putBack = () => {
    WebAssembly.instantiateStreaming = instantiateStreaming;
    self.fetch = quick;
  };
  return { compiled, putBack };
}

// Pyodide waits for ever when its WebAssembly cannot be had; this fails instead.
function unlessFailed(promise, needed) {
  return Promise.race([promise, needed.then(() => promise)]);
}

const output = {
  stdout: (text) => console.log(text),
  stderr: (text) => console.error(text),
};

// The file system is not in the snapshot: what was imported works, and what was not is found in
// the archive. `random` must not start in the same state every time.
const WAKE = `
import importlib, random, sys
sys.path[:] = ["/py.zip" if place == "/py" else place for place in sys.path]
sys.path_importer_cache.clear()
for module in list(sys.modules.values()):
    place = getattr(module, "__path__", None)
    if isinstance(place, list):
        place[:] = [p.replace("/py/", "/py.zip/", 1) if p.startswith("/py/") else p for p in place]
# Their loaders remember the folder the data files lay in; imported again they find the archive.
for name in [name for name in sys.modules if name.split(".")[0] == "tzdata"]:
    del sys.modules[name]
importlib.invalidate_caches()
random.seed()
import flet_js
import flet.messaging.pyodide_connection
flet.messaging.pyodide_connection.flet_js = flet_js
`;

async function fromSnapshot(config) {
  const loader = import(config.pyodide);
  const snapshot = fetched(config.snapshot).then(snapshotFrom).catch((error) => {
    throw new Error(`the snapshot cannot be read (${error.message})`);
  });
  const archive = fetched(config.archive).then((response) => bytesOf(counted(response)));
  archive.catch(() => {});
  const wasm = config.pyodide.replace("pyodide.mjs", "pyodide.asm.wasm");
  const { compiled, putBack } = prepare(wasm, snapshot.then((bytes) => bytes.length));
  let python;
  try {
    const { loadPyodide } = await loader;
    python = await unlessFailed(loadPyodide({ ...output, _loadSnapshot: snapshot }), compiled);
  } finally {
    putBack();
  }
  performance.mark("python loaded");
  python.FS.writeFile("/py.zip", await archive);
  python.registerJsModule("flet_js", flet_js);
  python.runPython(WAKE);
  return python;
}

async function ordinarily(config) {
  const { loadPyodide } = await import(config.pyodide);
  const archive = fetched(config.archive).then((response) => bytesOf(counted(response)));
  const wasm = fetched(config.pyodide.replace("pyodide.mjs", "pyodide.asm.wasm"));
  const there = wasm.then((response) => response.body.cancel());
  const python = await unlessFailed(loadPyodide(output), there);
  python.registerJsModule("flet_js", flet_js);
  python.unpackArchive(await archive, "zip", { extractDir: "/py" });
  python.runPython(`import sys; sys.path.insert(0, "/py")`);
  return python;
}

async function start(config) {
  const way = config.ordinary ? "ordinary" : "snapshot";
  self.brinewright = { ...config.facts, start: { way, why: config.ordinary ?? "" } };
  flet_js.documentUrl = config.documentUrl;
  try {
    const python = await (config.ordinary ? ordinarily(config) : fromSnapshot(config));
    self.brinewrightPython = python;
    performance.mark("python woken");
    await python.runPythonAsync("from app.main import start\nstart()");
    await flet_js.start_connection((message) => {
      const bytes = message.toJs();
      self.postMessage(bytes, [bytes.buffer]);
    });
    performance.mark("program started");
    for (const message of waiting.splice(0)) flet_js.send(message);
    self.postMessage("initialized");
  } catch (error) {
    tell("failed", { way, why: String(error?.message ?? error).trim().slice(-600) });
  }
}

self.onmessage = (event) => {
  if (!loading) {
    loading = true;
    start(event.data);
  } else if (typeof flet_js.send === "function") flet_js.send(event.data);
  else waiting.push(event.data);
};
