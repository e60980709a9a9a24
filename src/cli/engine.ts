import { worksheetFunctions } from "../functions";
import { createEngine, type Engine } from "../host/engine/engine";
import { metadata } from "./functions";

export function newEngine(): Engine {
  return createEngine({ metadata, functions: worksheetFunctions });
}
