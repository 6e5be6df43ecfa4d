"""Opens and makes sealed files with a general-purpose cryptography library, from the description of the format alone.

Reads JSON from standard input and writes JSON to standard output. In: {"open": [[text of a file, passphrase], ...],
"seal": [[text, passphrase, salt as hex, nonce as hex, memory in KiB, passes, lanes], ...]}. Out: {"opened": list of texts,
null where a file does not open, "sealed": list of texts of files}.
"""

import base64
import json
import sys

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305
from cryptography.hazmat.primitives.kdf.argon2 import Argon2id


def head(file):
    """What is held in place beside the sealed bytes: the values as they stand in the file."""
    key = file["key"]
    values = [file["format"], file["version"], key["name"], key["memory_kib"], key["passes"], key["lanes"]]
    values += [key["salt"], file["cipher"], file["nonce"]]
    return " ".join(str(value) for value in values).encode()


def cipher(file, passphrase):
    key = file["key"]
    derive = Argon2id(
        salt=base64.b64decode(key["salt"]),
        length=32,
        iterations=key["passes"],
        lanes=key["lanes"],
        memory_cost=key["memory_kib"],
    )
    return ChaCha20Poly1305(derive.derive(passphrase.encode()))


def opened(text, passphrase):
    file = json.loads(text)
    try:
        sealed = base64.b64decode(file["sealed"])
        return cipher(file, passphrase).decrypt(base64.b64decode(file["nonce"]), sealed, head(file)).decode()
    except InvalidTag:
        return None


def sealed(text, passphrase, salt, nonce, memory, passes, lanes):
    def written(hexadecimal):
        return base64.b64encode(bytes.fromhex(hexadecimal)).decode()

    file = {
        "format": "arcminute-sealed",
        "version": 1,
        "key": {
            "name": "argon2id",
            "memory_kib": memory,
            "passes": passes,
            "lanes": lanes,
            "salt": written(salt),
        },
        "cipher": "chacha20-poly1305",
        "nonce": written(nonce),
    }
    bytes_of = cipher(file, passphrase).encrypt(bytes.fromhex(nonce), text.encode(), head(file))
    file["sealed"] = base64.b64encode(bytes_of).decode()
    return json.dumps(file)


def main():
    asked = json.load(sys.stdin)
    answer = {
        "opened": [opened(*one) for one in asked["open"]],
        "sealed": [sealed(*one) for one in asked["seal"]],
    }
    json.dump(answer, sys.stdout)


main()
