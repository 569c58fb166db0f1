import type { Notebook } from '../../shared/job/records/notebook.ts';
import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { ok, type Result } from '../../shared/basics/result.ts';
import { drawApart } from '../certificate/drawApart.ts';
import { canonicalJson } from '../certificate/hash.ts';
import { issueOf } from '../certificate/issue.ts';
import { dataSignature } from '../certificate/signature.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import type { Outlet } from './outlet.ts';

/** What is being drawn, each under the name that the screen which asked has given it. */
export interface PaperJobs {
  /** Runs a deed that can be stopped, and tells how far it has come. */
  run<T>(job: string | undefined, deed: (watching: Watching) => Promise<T>): Promise<T>;
  stop(job: string): void;
}

interface Watching {
  readonly signal: AbortSignal;
  readonly onShare: (share: number) => void;
}

export function paperJobs(outlet: Outlet): PaperJobs {
  const running = new Map<string, AbortController>();
  return {
    async run(job, deed) {
      const ending = new AbortController();
      if (job !== undefined) running.set(job, ending);
      const onShare = (share: number): void => {
        if (job !== undefined) outlet.tell('paper', { job, share: Math.min(1, Math.max(0, share)) });
      };
      try {
        return await deed({ signal: ending.signal, onShare });
      } finally {
        if (job !== undefined && running.get(job) === ending) running.delete(job);
      }
    },
    stop: (job) => running.get(job)?.abort(),
  };
}

/** A certificate as it would be issued now: its data, and its pages drawn in a thread of their own, not yet signed. */
export async function drawnNow(
  { database, identity }: { readonly database: Database; readonly identity: Identity },
  notebook: Notebook,
  { look, pictures, watching }: Drawing,
) {
  const issue = issueOf(database, notebook, identity);
  const signature = dataSignature(issue.data.bench.key, canonicalJson(issue.data), identity);
  const drawn = await drawApart({ issue, look, signature, ...(pictures === undefined ? {} : { pictures }) }, watching);
  return drawn.ok ? (ok({ issue, ...drawn.value }) satisfies Result<unknown>) : drawn;
}

interface Drawing {
  readonly look: CertificateLook;
  readonly pictures?: { readonly pixelsWide: number; readonly most: number };
  readonly watching: Watching;
}
