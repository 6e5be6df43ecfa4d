const block = document.getElementById('program');
block.remove();
arcminute.unpack(block.textContent, Number(block.dataset.bytes));
