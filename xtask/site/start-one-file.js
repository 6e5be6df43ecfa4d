if (typeof WebAssembly !== 'object') {
    arcminute.say('cannot-run');
} else {
    const block = document.getElementById('program');
    const text = atob(block.textContent);
    block.remove();
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    arcminute.start(bytes);
}
