// What calls the cook: notices, the number on the icon, and what this device can do of it.
//
// Speaks on the bridge's channel (see ../bridge.js).
// Python to page:
//   abilities          ask -> {notices, worker, badge, awake, installed, apple}
//   notify-permission  ask -> {value}                whether notices may be shown
//   notify             title, body, tag, route       one of a tag replaces the one before
//   unnotify           tag                           take it away again, when it was seen to
//   badge              count                         0 takes it away
// A tapped notice brings the program to the front and opens its route (also by sw.js).

(() => {
  const channel = new BroadcastChannel(`brinewright-${window.brinewright.pageId}`);
  const asks = "Notification" in window;

  async function registration() {
    const found = await navigator.serviceWorker?.getRegistration();
    return found?.active ? found : null;
  }

  const open = (route) => {
    if (route) location.hash = route;
  };

  async function abilities() {
    const states = { default: "ask", granted: "granted", denied: "denied" };
    return {
      notices: asks ? states[Notification.permission] : "none",
      worker: Boolean((await registration())?.showNotification),
      badge: "setAppBadge" in navigator,
      awake: "wakeLock" in navigator,
      installed:
        navigator.standalone === true || matchMedia("(display-mode: standalone)").matches,
      apple: Boolean(navigator.vendor?.startsWith("Apple")),
    };
  }

  async function askToNotify() {
    if (!asks) return { value: false };
    const answer =
      Notification.permission === "default"
        ? await Notification.requestPermission()
        : Notification.permission;
    return { value: answer === "granted" };
  }

  async function notify({ title, body, tag, route }) {
    if (!asks || Notification.permission !== "granted") return;
    const wish = { body, tag, icon: "icons/icon-192.png", data: { route } };
    const worker = await registration();
    if (worker) {
      await worker.showNotification(title, wish);
      return;
    }
    new Notification(title, wish).addEventListener("click", () => {
      window.focus();
      open(route);
    });
  }

  async function unnotify({ tag }) {
    for (const notice of (await (await registration())?.getNotifications({ tag })) ?? []) {
      notice.close();
    }
  }

  async function badge({ count }) {
    if (count > 0) await navigator.setAppBadge?.(count);
    else await navigator.clearAppBadge?.();
  }

  const does = { abilities, "notify-permission": askToNotify, notify, unnotify, badge };

  channel.addEventListener("message", async ({ data }) => {
    const act = does[data?.kind];
    if (!act) return;
    let answer;
    try {
      answer = await act(data);
    } catch (error) {
      answer = { value: false, why: String(error) };
    }
    if (data.ask) channel.postMessage({ kind: "answer", ask: data.ask, ...answer });
  });

  navigator.serviceWorker?.addEventListener("message", ({ data }) => {
    if (data?.kind === "open") open(data.route);
  });
})();
