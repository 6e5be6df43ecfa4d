// For leak tests: tells of every use of what no content security policy governs: connections between
// peers, and links that ask for a connection or only for the address of a host (which can carry words).
// A page that removes the constructors (as ours does) gets a tripwire in their place once it has loaded.
(() => {
  const say = console.debug.bind(console);
  const tell = (kind, url) =>
    say("arcminute-watch:connection:" + encodeURIComponent(JSON.stringify({ kind, url })));
  const names = ["RTCPeerConnection", "webkitRTCPeerConnection", "WebTransport"];
  const target = (args) => {
    try {
      if (typeof args[0] === "string") return args[0];
      return args[0].iceServers.flatMap((server) => server.urls).join(" ");
    } catch {
      return "(no address)";
    }
  };
  for (const name of names) {
    if (!(name in window)) continue;
    window[name] = new Proxy(window[name], {
      construct(real, args, made) {
        tell(name, target(args));
        return Reflect.construct(real, args, made);
      },
    });
  }
  const told = new Set();
  const hints = new MutationObserver(() => {
    for (const link of document.querySelectorAll("link[rel~=dns-prefetch], link[rel~=preconnect]")) {
      if (told.has(link.href)) continue;
      told.add(link.href);
      tell(link.rel, link.href);
    }
  });
  hints.observe(document, { childList: true, subtree: true, attributes: true, attributeFilter: ["rel", "href"] });
  addEventListener("load", () => setTimeout(() => {
    for (const name of names) {
      if (name in window) continue;
      Object.defineProperty(window, name, {
        configurable: true,
        get() {
          tell(name, "(removed constructor was asked for)");
          return undefined;
        },
      });
    }
  }));
})();
