// The service worker: keeps every file this browser needs, checks each against its hash, serves
// photos from the private file system, and takes over only when told to.
//
// Bundled at build time, the list of files and the page's policy put in place of self.__FILES and
// self.__POLICY.
// `sw.js?client=skwasm|skwasm_heavy|chromium|full` says which renderer's files to keep.

import { clientsClaim } from "workbox-core";
import { PrecacheController, PrecacheRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

const client = new URL(self.location.href).searchParams.get("client") ?? "full";
const files = self.__FILES.filter((file) => !file.only || file.only.includes(client));
const hashes = new Map(files.map((file) => [new URL(file.url, self.location.href).href, file.hash]));

async function sha256(bytes) {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// What a server hands out may be a login page or half a file; then the whole update is refused
// and the version that worked goes on working.
const checked = {
  requestWillFetch: async ({ request }) => new Request(request, { cache: "no-cache" }),
  cacheWillUpdate: async ({ request, response }) => {
    if (!response || response.status !== 200 || response.redirected) return null;
    const wanted = hashes.get(new URL(request.url).origin + new URL(request.url).pathname);
    const kept = response.clone();
    if (wanted !== (await sha256(await response.arrayBuffer()))) return null;
    return request.url.includes(".bin.gz") ? unpacked(kept) : kept;
  },
  // The page's policy does not reach into its worker; a header on the worker's script does.
  handlerWillRespond: async ({ request, response }) => {
    if (!request.url.endsWith("boot/worker.js")) return response;
    const headers = new Headers(response.headers);
    headers.set("Content-Security-Policy", self.__POLICY);
    return new Response(response.body, { headers });
  },
};

// The snapshot travels packed and is kept unpacked: unpacking it at each start would cost a
// fifth of the whole start.
function unpacked(response) {
  return new Response(response.body.pipeThrough(new DecompressionStream("gzip")), {
    headers: { "Content-Type": "application/octet-stream", "X-Unpacked": "yes" },
  });
}

const kept = new PrecacheController({ plugins: [checked] });
kept.addToCacheList(files.map(({ url, hash }) => ({ url, revision: hash })));
self.addEventListener("install", (event) => kept.install(event));
self.addEventListener("activate", (event) => kept.activate(event));
clientsClaim();

registerRoute(new PrecacheRoute(kept, { directoryIndex: "index.html", cleanURLs: false,
  ignoreURLParametersMatching: [/.*/] }));
registerRoute(new NavigationRoute(kept.createHandlerBoundToURL("index.html")));

// Photos lie in the page's private file system; a list shows them by address, so that their
// bytes never pass through Python.
registerRoute(
  ({ url }) => url.href.startsWith(new URL("photos/", self.location.href).href),
  async ({ url }) => {
    try {
      const root = await navigator.storage.getDirectory();
      const folder = await root.getDirectoryHandle("photos");
      const name = decodeURIComponent(url.pathname.split("/").pop());
      const file = await (await folder.getFileHandle(name)).getFile();
      return new Response(file, {
        headers: { "Content-Type": "image/jpeg", "Cache-Control": "no-store" },
      });
    } catch {
      return new Response("", { status: 404 });
    }
  },
);

self.addEventListener("message", ({ data }) => {
  if (data?.kind === "take-over") self.skipWaiting();
});

// A notice carries the route of its step: the program comes to the front and opens it.
self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  const route = event.notification.data?.route ?? "";
  event.waitUntil(
    (async () => {
      const open = await self.clients.matchAll({ type: "window" });
      if (!open.length) return self.clients.openWindow(route ? `./#${route}` : ".");
      for (const page of open) page.postMessage({ kind: "open", route });
      return open[0].focus();
    })(),
  );
});
