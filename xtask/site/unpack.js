// Unpacks the program: a bare LZMA stream, by the specification that its author put into the public domain, with
// lc, lp and pb all 0, and the whole output as the window.
function arcminuteUnpacked(packed, length) {
    const REP = 12, REP0 = 24, REP1 = 36, REP2 = 48, REP0_LONG = 60;
    const SLOT = 72, NEAR = SLOT + 4 * 64, ALIGN = NEAR + 128, LENGTH = ALIGN + 16, REP_LENGTH = LENGTH + 274, LITERAL = REP_LENGTH + 274;
    const output = new Uint8Array(length);
    const chances = new Uint16Array(LITERAL + 0x300).fill(1024);
    let at = 5, range = 0xffffffff, code = 0;
    for (let i = 1; i < 5; i++) code = code * 256 + packed[i];

    const wider = () => {
        if (range >= 0x1000000) return;
        range = range * 256;
        code = code * 256 + packed[at++];
    };
    const bit = index => {
        const chance = chances[index];
        const bound = (range >>> 11) * chance;
        const one = code >= bound;
        if (one) {
            range -= bound;
            code -= bound;
            chances[index] = chance - (chance >>> 5);
        } else {
            range = bound;
            chances[index] = chance + ((2048 - chance) >>> 5);
        }
        wider();
        return one ? 1 : 0;
    };
    const tree = (base, bits) => {
        let node = 1;
        for (let i = 0; i < bits; i++) node = node * 2 + bit(base + node);
        return node - (1 << bits);
    };
    const reversed = (base, bits) => {
        let node = 1, value = 0;
        for (let i = 0; i < bits; i++) {
            const next = bit(base + node);
            node = node * 2 + next;
            value += next << i;
        }
        return value;
    };
    const plain = bits => {
        let value = 0;
        for (let i = 0; i < bits; i++) {
            range = Math.floor(range / 2);
            const one = code >= range;
            if (one) code -= range;
            value = value * 2 + (one ? 1 : 0);
            wider();
        }
        return value;
    };
    const lengthBy = base => {
        if (!bit(base)) return tree(base + 2, 3);
        return bit(base + 1) ? 16 + tree(base + 18, 8) : 8 + tree(base + 10, 3);
    };
    const distance = shortness => {
        const slot = tree(SLOT + 64 * Math.min(shortness, 3), 6);
        if (slot < 4) return slot;
        const bits = (slot >> 1) - 1;
        const first = (2 + (slot & 1)) * 2 ** bits;
        return slot < 14 ? first + reversed(NEAR + first - slot, bits) : first + plain(bits - 4) * 16 + reversed(ALIGN, 4);
    };

    let state = 0, back = [0, 0, 0, 0], n = 0;
    while (n < length) {
        if (!bit(state)) {
            let letter = 1;
            if (state > 6) {
                let other = output[n - back[0] - 1];
                while (letter < 256) {
                    const wanted = other >> 7 & 1;
                    other <<= 1;
                    const next = bit(LITERAL + 256 + 256 * wanted + letter);
                    letter = letter * 2 + next;
                    if (next !== wanted) break;
                }
            }
            while (letter < 256) letter = letter * 2 + bit(LITERAL + letter);
            output[n++] = letter;
            state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
            continue;
        }
        let copies;
        if (bit(REP + state)) {
            if (bit(REP0 + state)) {
                const which = !bit(REP1 + state) ? 1 : !bit(REP2 + state) ? 2 : 3;
                back = [back[which], ...back.filter((_, place) => place !== which)];
            } else if (!bit(REP0_LONG + state)) {
                output[n] = output[n - back[0] - 1];
                n++;
                state = state < 7 ? 9 : 11;
                continue;
            }
            copies = lengthBy(REP_LENGTH);
            state = state < 7 ? 8 : 11;
        } else {
            copies = lengthBy(LENGTH);
            back = [distance(copies), back[0], back[1], back[2]];
            state = state < 7 ? 7 : 10;
        }
        for (const end = Math.min(n + copies + 2, length); n < end; n++) output[n] = output[n - back[0] - 1];
    }
    return output;
}
