import { spawn } from "node:child_process";
import path from "node:path";
import { words } from "./setup-words.mjs";

/** A sentence for the user that ends the script with exit code 1. */
export class Stop extends Error {
  name = "Stop";
}

const HEARTBEAT_S = 20;

/**
 * Runs a program and waits for it. With `quiet` its words are kept and given back instead of shown, and a line every 20 seconds says
 * that it still runs.
 * @returns {Promise<{code: number, output: string}>} code 127 if the program could not be started
 */
export function run([command, ...given], { cwd, env = process.env, quiet = false } = {}) {
  return new Promise((resolve) => {
    // Only .cmd files of Windows need a shell, and only fixed words are ever given to them.
    const shell = process.platform === "win32" && /^(npm|npx)$/.test(command);
    const child = spawn(command, given, { cwd, env, shell, stdio: quiet ? ["ignore", "pipe", "pipe"] : "inherit" });
    let output = "";
    for (const stream of [child.stdout, child.stderr]) stream?.on("data", (bytes) => (output += bytes));
    const began = Date.now();
    const heartbeat = quiet ? setInterval(() => console.log(words.stillBusy(Math.round((Date.now() - began) / 1000))), HEARTBEAT_S * 1000) : undefined;
    const end = (code) => {
      clearInterval(heartbeat);
      resolve({ code, output });
    };
    child.on("error", (error) => {
      output += error.message;
      end(127);
    });
    child.on("close", (code) => end(code ?? 1));
  });
}

/** The command for npm or npx: the very npm that started this script if there is one, so that its version and settings are the user's. */
export function npmCommand(tool, env = process.env) {
  const started = env.npm_execpath;
  if (!started?.endsWith("npm-cli.js")) return [tool];
  return [process.execPath, path.join(path.dirname(started), `${tool}-cli.js`)];
}

/** Prints a step with its place among the steps. */
export function stepper(count) {
  let number = 0;
  return (what) => console.log(words.step((number += 1), count, what));
}
