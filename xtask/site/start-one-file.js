if (typeof WebAssembly !== 'object') {
    arcminute.say('cannot-run');
} else {
    const block = document.getElementById('program');
    const text = atob(block.textContent);
    block.remove();
    arcminute.start(text, Number(block.dataset.bytes));
}
