import fc from "fast-check";

/** The same random cases in every run, so that a change is what makes a test fail. FC_SEED=0 npx jest ... draws others. */
const SEED = process.env.FC_SEED === undefined ? 20260301 : Number(process.env.FC_SEED) || Date.now() % 2147483647;
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED });
