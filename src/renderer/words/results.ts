export * from '../../shared/words/results.ts';
