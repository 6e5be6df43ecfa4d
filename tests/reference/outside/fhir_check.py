"""Reads documents of HL7 FHIR with a general-purpose library of its resources, release R4B.

R4B has the same shape as R4 for the resources used here. Reads JSON from standard input and writes JSON to standard output.
In: a list of texts of files. Out: for each the list of what is wrong with it, empty where nothing is. A file that is read
and written again must say the same; zeros at the end of decimals are not looked at, the library drops them.
"""

import json
import sys

from fhir.resources.R4B.bundle import Bundle


def faults(text):
    try:
        read = Bundle.model_validate_json(text)
    except ValueError as error:
        found = error.errors() if hasattr(error, "errors") else [{"loc": (), "msg": str(error)}]
        return [f"{'.'.join(str(part) for part in one['loc'])}: {one['msg']}" for one in found]
    if json.loads(read.model_dump_json()) != json.loads(text):
        return ["read and written again it says something else"]
    return []


def main():
    json.dump([faults(text) for text in json.load(sys.stdin)], sys.stdout)


main()
