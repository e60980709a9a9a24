/** Something changed that cannot be brought into the file as it is without a guess: the workbook has to be written anew. */
export class CannotMerge extends Error {}
