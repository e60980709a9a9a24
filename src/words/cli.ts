/** Words of the command line. */
export const cli = {
  help: (name: string) => `Algal Ledger on the command line.

${name} formula '=ALGAL.FOOD_N_CONTENT("Nori, raw")'
    Works out one formula and prints the answer as JSON: one value, or rows of values.
${name} calc BOOK.xlsx -o OUT.xlsx
    Calculates a workbook and writes the results into a copy. Nothing else in it changes.
${name} calc BOOK.xlsx BOOK2.xlsx ... -o FOLDER
    Calculates several workbooks into copies in one folder. One that is refused does not stop the rest.
${name} hand-over BOOK.xlsx -o COPY.xlsx --native
    Calculates a workbook and writes a copy for somebody without Algal Ledger: plain formulas in the place of ours, with their sources on sheets of
    their own and a cover sheet in front. What plain formulas cannot do is a value, and listed.
${name} hand-over BOOK.xlsx -o COPY.xlsx --values
    The same with values in the place of our formulas.
${name} help [NAME]
    Lists the worksheet functions, or explains one of them.`,
  functionList: "Worksheet functions (help NAME explains one):",
  unknownCommand: (command: string) => `There is no command "${command}". Use formula, calc, hand-over or help.`,
  noFunction: (name: string) => `There is no worksheet function ${name}. The command help lists them all.`,
  noCommand: "Give a command: formula, calc, hand-over or help.",
  oneFormula: `Give one formula in quotes, such as '=ALGAL.FOOD_N_CONTENT("Nori, raw")'.`,
  emptyFormula: "The formula is empty.",
  oneBook: "Give a workbook to calculate: calc BOOK.xlsx -o OUT.xlsx.",
  outputWanted: "Say where the calculated copy goes: calc BOOK.xlsx -o OUT.xlsx.",
  folderWanted: "Say in which folder the calculated copies go: calc BOOK.xlsx BOOK2.xlsx -o FOLDER.",
  sameNameTwice: (name: string) => `Two of the workbooks are named ${name}, and the folder has room for one of that name: calculate them apart.`,
  notAFolder: "This is a file, not a folder for the copies.",
  progress: (place: number, of: number, name: string, line: string) => `${place}/${of} ${name}: ${line}`,
  notCalculated: "not calculated.",
  calculatedMany: (books: number, refused: number) => `${count(books, "workbook")}: ${books - refused} calculated, ${refused} refused.`,
  oneBookToHandOver: "Give one workbook to hand over: hand-over BOOK.xlsx -o COPY.xlsx --native.",
  handOverOutput: "Say where the copy goes: hand-over BOOK.xlsx -o COPY.xlsx --native.",
  handOverHow: "Say what becomes of the ALGAL formulas: --native writes them as plain formulas, --values puts their values in their place.",
  handedOver: (cells: number, sheets: number) => `${count(cells, "cell")} frozen on ${count(sheets, "sheet")}; a cover sheet says what was done.`,
  handedOverNative: (cells: number, frozen: number) =>
    `${count(cells, "cell")} written as plain formulas${frozen > 0 ? `, ${count(frozen, "cell")} frozen as values` : ""}; a cover sheet says what was done.`,
  atMostOneName: "Give at most one name of a function.",
  unknownOption: (message: string) => `The options are not understood: ${message}`,

  error: (code: string, sentence: string) => `${code} ${sentence}`,
  elementError: (row: number, column: number, code: string, sentence: string) => `Row ${row}, column ${column} of the answer: ${code} ${sentence}`,
  notReadableFormula: "The formula cannot be read: a parenthesis, a brace or a quotation mark has no other half.",
  noSheets: "The formula reads a sheet, and there is no workbook here: use calc with the workbook.",
  unfinished: "The formula cannot be read, or calculates with a text: look for something missing or left over.",
  otherEnding: (ending: string) => `The copy keeps the kind of the workbook: give it a name that ends in ${ending}.`,
  unknownName: "The formula uses a function or a name that is not known here.",
  file: (path: string, sentence: string) => `${path}: ${sentence}`,
  noFile: "There is no such file.",
  aFolder: "This is a folder, not a workbook.",
  notReadable: "The file cannot be read; check who may open it.",
  sameFile: "The copy would replace the workbook itself; give another name after -o.",
  noFolder: "The folder for the copy does not exist.",
  notWritable: "The copy cannot be written there; check who may write to that folder, and the space left.",
  tookTooLong: (seconds: number) => `Calculating the workbook takes longer than ${seconds} s, much longer than a workbook of its size should; nothing was written.`,
  tooMuchMemory: "The workbook needs more memory than Algal Ledger takes, 1 GB; nothing was written.",
  fault: (message: string) => `Algal Ledger stopped because of a fault of its own: ${message}`,

  calculated: (cells: number, changed: number, errors: number, kept: number) =>
    `${count(cells, "formula cell")} calculated, ${changed} changed, ${count(errors, "error")}${kept === 0 ? "" : `, ${kept} left as stored`}.`,
  cellError: (address: string, code: string, sentence: string) => `${address} ${code} ${sentence}`,
  kept: (address: string, reason: string) => `${address} keeps its stored value: ${reason}`,
  keptUnknown: (formula: string) => `=${formula} uses what Algal Ledger does not calculate, or reads such a cell.`,
  keptOtherBook: "its formula reads another workbook.",
  keptTooMuch: "its formula reads more cells than Algal Ledger calculates.",
  keptTooLong: "its formula is longer than a formula may be.",
  keptBeyond: {
    intersection: "its formula reads the cells that two ranges have in common, which Algal Ledger does not calculate.",
    union: "its formula takes several ranges in parentheses as one, which Algal Ledger does not calculate.",
    place: "its formula takes one value of a range by its own row or column, which Algal Ledger does not calculate.",
    hidden: "its formula leaves out hidden rows, which Algal Ledger does not calculate.",
  },
  keptArray: "its array formula does not fit its range here.",
} as const;

function count(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
