import type { Notebook } from '../../shared/job/records/notebook.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';

/** A file to be written, by its name in the folder that was asked for. */
export interface ExportedFile {
  readonly name: string;
  readonly bytes: Buffer | string;
}

/** Where an export comes from. */
export interface Source {
  readonly database: Database;
  readonly identity: Identity;
  readonly notebook: Notebook;
}
