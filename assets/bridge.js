// The page's end of the bridge to Python, which runs in a worker and cannot do these things.
//
// Both speak over BroadcastChannel "brinewright-" + pageId. A message is {kind, ...}; one with
// `ask` is answered {kind: "answer", ask, ...}.
//
// Python to page:
//   hello              ask -> {controlled, clearsUnused}
//                      whether a service worker answers for photos, and whether this is a browser
//                      that clears the data of a site which was not used for a week
//   persist            ask, quietly -> {known, value} keep the data until the cook removes it
//   share              ask, name, mime, content -> {value}   shared, declined or cannot
//   share-text         ask, title, text -> {value}   shared, declined, copied or cannot
//   download           name, mime, content           bytes, or a file of the private files
//   ask-update, take-update                          answered by boot/keep.js
//   notices, the number on the icon                  see boot/calling.js
// Page to Python:
//   photo              file                          one for each picture chosen
//   file               file                          one for each other file chosen
//   controlled         value                         a service worker took charge of the page
//   update-waiting, kept, update-failed              told by boot/keep.js
// The first screen's "ready" goes by the worker's own brinewrightReady().

(() => {
  const channel = new BroadcastChannel(`brinewright-${window.brinewright.pageId}`);

  // WebKit clears what scripts of a site have written when nobody opened it for seven days of use,
  // unless it stands on the home screen.
  function clearsUnused() {
    const installed =
      navigator.standalone === true || matchMedia("(display-mode: standalone)").matches;
    return Boolean(navigator.vendor?.startsWith("Apple")) && !installed;
  }

  async function persist({ quietly }) {
    if (!navigator.storage?.persist) return { known: false, value: false };
    if (quietly) {
      const leave = await navigator.permissions?.query({ name: "persistent-storage" });
      if (leave?.state !== "granted") return { known: false, value: false };
    }
    return { known: true, value: await navigator.storage.persist() };
  }

  function download({ name, mime, content }) {
    const address = URL.createObjectURL(new Blob([content], { type: mime }));
    const link = document.createElement("a");
    link.href = address;
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    // Not at once: some browsers read it only when the cook has said where to put it.
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  async function share({ name, mime, content }) {
    const files = [new File([content], name, { type: mime })];
    if (!navigator.canShare?.({ files })) return { value: "cannot" };
    try {
      await navigator.share({ files });
      return { value: "shared" };
    } catch (error) {
      return { value: error.name === "AbortError" ? "declined" : "cannot" };
    }
  }

  async function shareText({ title, text }) {
    if (navigator.share) {
      try {
        await navigator.share({ title, text });
        return { value: "shared" };
      } catch (error) {
        if (error.name === "AbortError") return { value: "declined" };
      }
    }
    try {
      await navigator.clipboard.writeText(text);
      return { value: "copied" };
    } catch {
      return { value: "cannot" };
    }
  }

  const does = {
    hello: () => ({
      controlled: Boolean(navigator.serviceWorker?.controller),
      clearsUnused: clearsUnused(),
    }),
    persist,
    download,
    share,
    "share-text": shareText,
  };

  channel.addEventListener("message", async ({ data }) => {
    const act = does[data?.kind];
    if (!act) return;
    let answer;
    try {
      answer = await act(data);
    } catch (error) {
      answer = { known: false, value: false, why: String(error) };
    }
    if (data.ask) channel.postMessage({ kind: "answer", ask: data.ask, ...answer });
  });

  navigator.serviceWorker?.addEventListener("controllerchange", () =>
    channel.postMessage({ kind: "controlled", value: true }),
  );

  // A chosen file goes to Python as the file itself, not through the client, which would copy
  // its bytes several times. The marker ".brinewright-camera" in `accept` opens the camera.
  const click = HTMLInputElement.prototype.click;
  const heard = new WeakSet(); // opened again after a cancel, an input must not hand over twice
  HTMLInputElement.prototype.click = function () {
    if (this.type === "file") {
      if (this.accept.includes(".brinewright-camera")) {
        this.accept = "image/*";
        this.capture = "environment";
      }
      const kind = this.accept.startsWith("image") ? "photo" : "file";
      const chosen = () => {
        for (const file of this.files) channel.postMessage({ kind, file });
      };
      // First, before the client takes the files away from the input.
      if (!heard.has(this)) this.addEventListener("change", chosen, { capture: true });
      heard.add(this);
    }
    return click.call(this);
  };
})();
