import { words } from "./setup-words.mjs";

/** The sentence for a Node that is too old, or undefined. Old syntax on purpose: this runs before anything newer is loaded. */
export function nodeTooOld(version) {
  return Number(version.split(".")[0]) >= 20 ? undefined : words.nodeTooOld(version);
}

/** Loads a script's body only on a Node that can read it; a sentence that stops it goes to standard error with exit code 1. */
export function onModernNode(body) {
  const tooOld = nodeTooOld(process.versions.node);
  if (tooOld) {
    console.error(tooOld);
    process.exitCode = 1;
    return;
  }
  body().catch((error) => {
    console.error(error.name === "Stop" ? error.message : error);
    process.exitCode = 1;
    // A server that already listens would keep the process alive; the moment lets the sentence get out through a pipe.
    setTimeout(() => process.exit(), 100).unref();
  });
}
