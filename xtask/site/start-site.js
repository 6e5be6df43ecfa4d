// The program comes in app.wasm.js, as text in a script, so that the page itself may be forbidden every connection.
// Each character of `text` is one byte: its place in `alphabet`.
function arcminuteProgram(alphabet, text, length) {
    if (typeof WebAssembly !== 'object') {
        arcminute.say('cannot-run');
        return;
    }
    if (text.length !== length) console.error('The program was changed on its way here. The server must send .js files as UTF-8.');
    const byteOf = new Uint8Array(1024);
    for (let i = 0; i < alphabet.length; i++) byteOf[alphabet.charCodeAt(i)] = i;
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = byteOf[text.charCodeAt(i)];
    arcminute.start(bytes);
}
if ('serviceWorker' in navigator) addEventListener('load', () => { navigator.serviceWorker.register('sw.js').catch(() => {}); });
