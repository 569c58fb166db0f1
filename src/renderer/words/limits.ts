export * from '../../shared/words/limits.ts';
