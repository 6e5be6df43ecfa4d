// Keeps the whole page for use without a network. A new version is stored beside the old one, each file checked
// against its hash, and takes over once every tab with the old one is closed.
const VERSION = '@VERSION@';
const FILES = new Map(@FILES@);
const PREFIX = `arcminute ${registration.scope} `;
const ROOT = new URL('./', location).href;

addEventListener('install', event => {
    const requests = [...FILES].map(([name, integrity]) => new Request(new URL(name, ROOT), { integrity, cache: 'no-cache' }));
    event.waitUntil(caches.open(PREFIX + VERSION).then(cache => cache.addAll(requests)));
});

addEventListener('activate', event => {
    const isOld = name => name.startsWith(PREFIX) && name !== PREFIX + VERSION;
    event.waitUntil(caches.keys()
        .then(names => Promise.all(names.filter(isOld).map(name => caches.delete(name))))
        .then(() => clients.claim()));
});

addEventListener('fetch', event => {
    const url = event.request.url.split(/[?#]/)[0];
    const name = url === ROOT + 'index.html' ? './' : url === ROOT ? './' : url.slice(ROOT.length);
    if (!url.startsWith(ROOT) || !FILES.has(name)) return;
    event.respondWith(caches.open(PREFIX + VERSION)
        .then(cache => cache.match(new URL(name, ROOT).href))
        .then(kept => kept || fetch(event.request)));
});
