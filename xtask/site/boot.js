// Starts the page; says so in plain words when it cannot run and when it has stopped.
const arcminute = {
    say(id) {
        const loading = document.getElementById('loading');
        if (loading) loading.remove();
        const message = document.getElementById(id);
        message.hidden = false;
        message.scrollIntoView();
    },

    // The program as text, and how many bytes it is.
    unpack(text, length) {
        if (typeof WebAssembly !== 'object') {
            arcminute.say('cannot-run');
            return;
        }
        const packed = Uint8Array.from(atob(text), letter => letter.charCodeAt(0));
        arcminute.start(arcminuteUnpacked(packed, length));
    },

    start(bytes) {
        wasm_bindgen({ module_or_path: bytes }).then(() => {
            const loading = document.getElementById('loading');
            if (loading) loading.remove();
            document.documentElement.dataset.ready = 'yes';
        }, reason => {
            console.error(reason);
            arcminute.say(arcminute.isPanic(reason) ? 'stopped' : 'cannot-run');
        });
    },

    // After a panic the program answers nothing any more.
    isPanic(reason) {
        return typeof WebAssembly === 'object' && reason instanceof WebAssembly.RuntimeError;
    },
};
addEventListener('error', event => { if (arcminute.isPanic(event.error)) arcminute.say('stopped'); });
addEventListener('unhandledrejection', event => { if (arcminute.isPanic(event.reason)) arcminute.say('stopped'); });
