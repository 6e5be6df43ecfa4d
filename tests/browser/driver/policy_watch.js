// Says in the console log what the content security policy stopped. The log outlives the document,
// so an attempt made while the page is being left is kept as well.
(() => {
  const say = console.debug.bind(console);
  addEventListener("securitypolicyviolation", (event) => {
    const told = { kind: event.effectiveDirective, url: event.blockedURI };
    say("arcminute-watch:policy:" + encodeURIComponent(JSON.stringify(told)));
  }, true);
})();
