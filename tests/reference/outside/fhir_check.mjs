// Validates documents of HL7 FHIR with a library of others, release R4, code lists included.
//
// Called with the folder of that library. Reads JSON from standard input and writes JSON to standard output. In: a list of
// texts of files. Out: for each the list of what is wrong with it, empty where nothing is. Warnings and hints of the library
// are left out: it has not the lists that LOINC codes are of.

import { createRequire } from "node:module";
import process from "node:process";

// Without being told otherwise it takes release 4.
const { Fhir } = createRequire(import.meta.url)(process.argv[2]);
const fhir = new Fhir();

function faults(text) {
  let read;
  try {
    read = JSON.parse(text);
  } catch (error) {
    return [String(error)];
  }
  const { valid, messages } = fhir.validate(read, { errorOnUnexpected: true });
  const found = messages.filter(({ severity }) => severity === "error" || severity === "fatal");
  const told = found.map(({ location, message }) => `${location}: ${message}`);
  return valid || told.length !== 0 ? told : ["it is not valid"];
}

let asked = "";
process.stdin.setEncoding("utf8");
for await (const part of process.stdin) asked += part;
const texts = JSON.parse(asked);
process.stdout.write(JSON.stringify(texts.map(faults)));
