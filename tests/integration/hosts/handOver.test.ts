import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { layDoorway } from '../../../src/main/hosts/launcher/doorway.ts';
import { runningBench } from '../../../src/main/hosts/launcher/handOver.ts';
import { openLoopback } from '../../../src/main/hosts/loopback/host.ts';
import { benchInNewFolder, valueOf } from '../../support/bench/open.ts';

const folder = (): string => mkdtempSync(join(tmpdir(), 'axlewright-hand-over-'));

describe('a second start', () => {
  it('finds the bench that runs on the same records, which counts it as a page that has gone again', async () => {
    const open: number[] = [];
    const records = folder();
    const service = benchInNewFolder(undefined, records);
    const host = valueOf(await openLoopback({ service, files: new Map(), onPages: (count) => open.push(count) }));
    layDoorway(records, host.link);
    expect(await runningBench(records)).toBe(host.link);
    await expect.poll(() => open).toEqual([1, 0]);
    await host.close();
    // Killed: its doorway is still there.
    expect(existsSync(join(records, 'open-bench.html'))).toBe(true);
    expect(await runningBench(records)).toBeUndefined();
    await service.close();
  });

  it('is not led to another program that has got the port since', async () => {
    const records = folder();
    const other = createServer((_, response) => response.end('hello'));
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    layDoorway(records, `http://127.0.0.1:${(other.address() as AddressInfo).port}/#token=secret`);
    expect(await runningBench(records)).toBeUndefined();
    other.close();
  });

  it('finds none where nothing was opened, or where the page is not ours', async () => {
    const records = folder();
    expect(await runningBench(records)).toBeUndefined();
    writeFileSync(join(records, 'open-bench.html'), '<a href="http://example.org/#token=a">x</a>');
    expect(await runningBench(records)).toBeUndefined();
  });
});
