import { onTestFinished } from 'vitest';
import { systemClock } from '../../src/main/clock.ts';
import { type Journal, type JournalOptions, openJournal } from '../../src/main/journal/journal.ts';
import { type Database, openDatabase } from '../../src/main/store/database.ts';
import { temporaryFolder } from './folder.ts';

export interface Opened {
  readonly database: Database;
  readonly journal: Journal;
}

/** A journal on a real database file, closed when the test is done. */
export function journalForTest(folder: string = temporaryFolder(), options: JournalOptions = {}): Opened {
  const opened = openDatabase(folder, systemClock);
  if (!opened.ok) throw new Error(opened.problem.sentence);
  const journal = openJournal(opened.value, options);
  onTestFinished(() => {
    journal.close();
    opened.value.close();
  });
  return { database: opened.value, journal };
}
