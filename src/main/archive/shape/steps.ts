import { countedLines } from './countedLines.ts';
import { firstTables } from './firstTables.ts';
import { rights } from './rights.ts';
import { summaries } from './summaries.ts';
import { shortPieces } from './shortPieces.ts';
import { shortWords } from './shortWords.ts';
import type { Step } from './step.ts';

/** Every step of the archive's shape since the first day, oldest first; the archive remembers how many it has had. */
export const steps: readonly Step[] = [firstTables, summaries, rights, shortWords, shortPieces, countedLines];
