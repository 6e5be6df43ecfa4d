// For leak tests: tells of every use of the connections that no content security policy governs.
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
