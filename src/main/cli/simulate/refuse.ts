import { fail, type Problem } from '../../../shared/basics/result.ts';

/** A format that reads well but describes what no simulated gauge sends. */
export const refuse = (field: string, why: string): { readonly ok: false; readonly problem: Problem } =>
  fail({
    kind: 'not-written',
    field,
    sentence: `No simulated gauge writes such lines ("${field}"): ${why}.`,
    remedy: 'Change that field, or leave it out.',
  });
