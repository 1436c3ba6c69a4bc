// The worker that runs Python. Started by page.js at once, beside the client.
//
// First message: {pyodide, snapshot, archive, documentUrl, facts, ordinary}. It starts from the
// memory snapshot when it can and the ordinary way when it cannot; which way it went, and why,
// is in `brinewright.start` for the diagnostics. Later messages are the client's own.
//
// What Python may read of the page stands in the worker's global `brinewright`:
//   base, pageId   the folder of the site; the name of this page's channel
//   start          {way: "snapshot" | "ordinary", why}
// and what it may call: brinewrightReady() once the first screen stands.

const waiting = [];
const flet_js = { args: null };
let loading = false;

self.brinewrightReady = () => self.postMessage("ready");

function tell(kind, detail) {
  self.postMessage({ brinewright: kind, ...detail });
}

async function bytesOf(url, share) {
  const response = await fetch(url, { credentials: "same-origin" });
  if (!response.ok) throw new Error(`${url.split("/").pop()}: HTTP ${response.status}`);
  const reader = response.body.getReader();
  const parts = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    parts.push(value);
    size += value.length;
    tell("progress", { share, bytes: value.length });
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

async function unpacked(packed) {
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// A snapshot larger than Pyodide's first memory does not fit; its memory is exported, so it can
// only be grown when the module has been instantiated.
function growTo(size) {
  const { instantiate, instantiateStreaming } = WebAssembly;
  const grown = (result) => {
    const memory = (result.instance ?? result).exports?.memory;
    if (memory && memory.buffer.byteLength < size) {
      memory.grow(Math.ceil((size - memory.buffer.byteLength) / 65536));
    }
    return result;
  };
  WebAssembly.instantiate = async (...words) => grown(await instantiate.apply(WebAssembly, words));
  WebAssembly.instantiateStreaming = async (...words) =>
    grown(await instantiateStreaming.apply(WebAssembly, words));
  return () => Object.assign(WebAssembly, { instantiate, instantiateStreaming });
}

const output = {
  stdout: (text) => console.log(text),
  stderr: (text) => console.error(text),
};

async function fromSnapshot(module, config) {
  const [packed, archive] = await Promise.all([
    bytesOf(config.snapshot, "python"),
    bytesOf(config.archive, "python"),
  ]);
  const snapshot = await unpacked(packed);
  const putBack = growTo(snapshot.length);
  let python;
  try {
    python = await module.loadPyodide({ ...output, _loadSnapshot: snapshot });
  } finally {
    putBack();
  }
  python.FS.writeFile("/py.zip", archive);
  python.registerJsModule("flet_js", flet_js);
  // The file system is not in the snapshot: what was imported works, and what was not is found
  // in the archive. `random` must not start in the same state every time.
  python.runPython(`
import importlib, random, sys
sys.path[:] = ["/py.zip" if place == "/py" else place for place in sys.path]
sys.path_importer_cache.clear()
for module in list(sys.modules.values()):
    place = getattr(module, "__path__", None)
    if isinstance(place, list):
        place[:] = [p.replace("/py/", "/py.zip/", 1) if p.startswith("/py/") else p for p in place]
importlib.invalidate_caches()
random.seed()
import flet_js
import flet.messaging.pyodide_connection
flet.messaging.pyodide_connection.flet_js = flet_js
`);
  return python;
}

async function ordinarily(module, config) {
  const archive = await bytesOf(config.archive, "python");
  const python = await module.loadPyodide(output);
  python.registerJsModule("flet_js", flet_js);
  python.unpackArchive(archive, "zip", { extractDir: "/py" });
  python.runPython(`import sys; sys.path.insert(0, "/py")`);
  return python;
}

async function load(config) {
  const module = await import(config.pyodide);
  if (config.ordinary) {
    self.brinewright.start = { way: "ordinary", why: "asked for" };
    return ordinarily(module, config);
  }
  try {
    const python = await fromSnapshot(module, config);
    self.brinewright.start = { way: "snapshot", why: "" };
    return python;
  } catch (error) {
    console.warn(`The snapshot did not load, starting the ordinary way: ${error}`);
    self.brinewright.start = { way: "ordinary", why: String(error).slice(0, 300) };
    return ordinarily(module, config);
  }
}

async function start(config) {
  loading = true;
  self.brinewright = { ...config.facts, start: { way: "", why: "" } };
  flet_js.documentUrl = config.documentUrl;
  try {
    const python = await load(config);
    await python.runPythonAsync(`
from app.main import start
start()
`);
    await flet_js.start_connection((message) => {
      const bytes = message.toJs();
      self.postMessage(bytes, [bytes.buffer]);
    });
    for (const message of waiting.splice(0)) flet_js.send(message);
    self.postMessage("initialized");
  } catch (error) {
    tell("failed", { why: String(error?.message ?? error) });
  }
}

self.onmessage = (event) => {
  if (!loading) start(event.data);
  else if (typeof flet_js.send === "function") flet_js.send(event.data);
  else waiting.push(event.data);
};
