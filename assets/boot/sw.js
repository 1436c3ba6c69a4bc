// The service worker: keeps every file this browser needs, checks each against its hash, serves
// photos from the private file system, and takes over only when told to.
//
// Bundled at build time with the list of files put in place of self.__FILES.
// `sw.js?client=skwasm|skwasm_heavy|chromium|full` says which renderer's files to keep.

import { clientsClaim } from "workbox-core";
import { PrecacheController, PrecacheRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

const client = new URL(self.location.href).searchParams.get("client") ?? "full";
const files = self.__FILES.filter((file) => !file.only || file.only.includes(client));
const hashes = new Map(files.map((file) => [new URL(file.url, self.location.href).href, file.hash]));

async function sha256(response) {
  const digest = await crypto.subtle.digest("SHA-256", await response.arrayBuffer());
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// What a server hands out may be a login page or half a file; then the whole update is refused
// and the version that worked goes on working.
const checked = {
  requestWillFetch: async ({ request }) => new Request(request, { cache: "no-cache" }),
  cacheWillUpdate: async ({ request, response }) => {
    if (!response || response.status !== 200 || response.redirected) return null;
    const wanted = hashes.get(new URL(request.url).origin + new URL(request.url).pathname);
    return wanted === (await sha256(response.clone())) ? response : null;
  },
};

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

self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(
    self.clients.matchAll({ type: "window" }).then((open) =>
      open.length ? open[0].focus() : self.clients.openWindow("."),
    ),
  );
});
