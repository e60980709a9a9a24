import { keepCompiledCode } from "./compiled-code";
import { isWatched, runWatched } from "./watched";

/**
 * Where the command line begins. Commands that open a workbook run in a process of their own that is watched: a file that somebody
 * made may ask for more time or memory than there is, and then one sentence is the end of it.
 */
const OPENS_A_FILE: ReadonlySet<string> = new Set(["calc", "hand-over"]);
const args = process.argv.slice(2);

if (OPENS_A_FILE.has(args[0] ?? "") && !isWatched()) {
  void runWatched(__filename, args).then((code) => {
    process.exitCode = code;
  });
} else {
  keepCompiledCode(__dirname);
  void import("./ledger");
}
