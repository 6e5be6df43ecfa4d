// The program comes in app.wasm.js, as text in a script, so that the page itself may be forbidden every connection.
if ('serviceWorker' in navigator) addEventListener('load', () => { navigator.serviceWorker.register('sw.js').catch(() => {}); });
