// Takes the memory snapshot: node snapshot.mjs PYODIDE_DIR ZIP WARM_PY OUT COMPILED_ZIP
// Also compiles the packages with the very Python that will run them.
import nodeCrypto from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { join, resolve } from "node:path";

// Node prints the whole minified line an error came from; the message is what helps.
process.on("uncaughtException", (error) => {
  console.error(String(error?.message ?? error));
  process.exit(1);
});

// What the snapshot is taken of must not depend on, or tell of, the machine it is taken on: the
// memory holds Python's environment, and sets are ordered by the seed of its hashes.
const plain = { env: { PYTHONHASHSEED: "0", HOME: "/home/pyodide", LANG: "C.UTF-8" } };

const [pyodideDir, zip, warm, out, compiled] = process.argv.slice(2).map((p) => resolve(p));
process.argv[1] = "brinewright";

// The same sources give the same snapshot, so that nobody fetches it again for nothing: time
// stands still and chance repeats itself. The worker seeds chance anew at each start.
const STILL = Date.UTC(2020, 0, 1);
globalThis.Date = class extends Date {
  constructor(...words) {
    super(...(words.length ? words : [STILL]));
  }
  static now() {
    return STILL;
  }
};
performance.now = () => 0;
let drawn = 1;
const repeated = (into) => {
  const bytes = new Uint8Array(into.buffer, into.byteOffset, into.byteLength);
  for (let i = 0; i < bytes.length; i += 1) {
    drawn = (Math.imul(drawn, 1664525) + 1013904223) >>> 0;
    bytes[i] = drawn >>> 24;
  }
  return into;
};
crypto.getRandomValues = repeated;
nodeCrypto.randomFillSync = repeated;
const { loadPyodide } = await import(pathToFileURL(join(pyodideDir, "pyodide.mjs")).href);

const compiler = await loadPyodide({ ...plain, indexURL: pyodideDir });
compiler.unpackArchive(new Uint8Array(readFileSync(zip)), "zip", { extractDir: "/py" });
compiler.runPython(`
import compileall, os, pathlib, py_compile, zipfile
assert compileall.compile_dir("/py", quiet=1, legacy=True, optimize=2, stripdir="/py", workers=1,
    invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH)
with zipfile.ZipFile("/compiled.zip", "w", zipfile.ZIP_DEFLATED) as made:
    for file in sorted(pathlib.Path("/py").rglob("*")):
        if file.is_file() and file.suffix != ".py":
            entry = zipfile.ZipInfo(str(file.relative_to("/py")), (2020, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            made.writestr(entry, file.read_bytes())
`);
const packed = compiler.FS.readFile("/compiled.zip");
writeFileSync(compiled, packed);

const python = await loadPyodide({ ...plain, indexURL: pyodideDir, _makeSnapshot: true });
python.unpackArchive(packed, "zip", { extractDir: "/py" });
python.runPython(readFileSync(warm, "utf-8"));
writeFileSync(out, python.makeMemorySnapshot());
