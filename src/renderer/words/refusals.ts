export * from '../../shared/words/refusals.ts';
