// Keeps in the page's head what the client would write over: it forbids enlarging, empties the
// title until Python names the page, and gives the browser's language for that of the words.

(() => {
  const root = document.documentElement;
  const viewport = document.querySelector("meta[name=viewport]").content;
  const title = document.title;
  const { lang } = root;

  function mend() {
    for (const line of document.head.querySelectorAll("meta[name=viewport]")) {
      if (line.content !== viewport) line.content = viewport;
    }
    if (!document.title) document.title = title;
    if (root.lang !== lang) root.lang = lang;
  }

  const what = { childList: true, characterData: true, subtree: true };
  new MutationObserver(mend).observe(document.head, what);
  new MutationObserver(mend).observe(root, { attributes: true, attributeFilter: ["lang"] });
})();
