// Times a program of the bench in the engine of a browser: node engine.mjs PROGRAM AIDS WISHES all|closed
// Prints the least median of a round in nanoseconds, and the number that all answers add up to, as the native program does.
import { readFile } from "node:fs/promises";

const [program, aids, wishes, kinds] = process.argv.slice(2);
const { instance } = await WebAssembly.instantiate(await readFile(program), {});
const { prepare, run } = instance.exports;
prepare(Number(aids), Number(wishes), kinds === "closed" ? 1 : 0);

const since = (begun) => Number(process.hrtime.bigint() - begun);

function median() {
  const rounds = [];
  const started = process.hrtime.bigint();
  while (rounds.length < 5 || since(started) < 50e6) {
    const begun = process.hrtime.bigint();
    run();
    rounds.push(since(begun));
  }
  rounds.sort((one, other) => one - other);
  return rounds[Math.floor(rounds.length / 2)];
}

// Warms up first: the engine makes the program faster while it runs.
const started = process.hrtime.bigint();
while (since(started) < 500e6) run();
const medians = Array.from({ length: 40 }, median);
console.log(Math.min(...medians), run().toExponential());
