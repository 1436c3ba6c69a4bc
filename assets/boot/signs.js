// The client fetches a font of its own for every sign that the program's font lacks, a tick or a
// thumb in a note, each under a name of its maker's. All of them get the one font of signs that
// lies in the site; what is not in there is drawn as an empty box.

(() => {
  const fonts = new URL("assets/fonts/", document.baseURI).href;
  const stock = window.fetch;
  window.fetch = (what, how) => {
    const address = new URL(what instanceof Request ? what.url : what, document.baseURI).href;
    const asked = address.startsWith(`${fonts}noto`);
    return stock.call(window, asked ? `${fonts}brinewright-signs.woff2` : what, how);
  };
})();
