export * from '../../shared/words/standing.ts';
