import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { openBench } from '../../src/main/bench/bench.ts';
import { systemClock } from '../../src/main/clock.ts';
import { openLoopback } from '../../src/main/hosts/loopback/host.ts';
import { listPageFiles } from '../../src/main/hosts/pageFiles.ts';
import { benchFolder, withRecords, writeBuild } from '../support/archive/benchRecords.ts';
import { archiveServer, benchRole, password, postgresBin } from '../support/archive/server.ts';
import { valueOf } from '../support/bench/open.ts';
import { goTo, launchBrowser, openPage } from '../support/browser.ts';
import { inProcess } from '../support/commandLine.ts';

const screens = join(import.meta.dirname, '..', '..', 'out', 'renderer');

it.skipIf(postgresBin() === undefined)(
  'chooses an archive in Settings, opens a build of another bench, and is told when that one writes in it too',
  async () => {
    const server = await archiveServer();
    onTestFinished(() => server.end());
    const [here, there] = [benchFolder(), benchFolder()];
    withRecords(there, 'bench-b', (database) => writeBuild(database, { build: 'b1', title: 'Hoist axle 31' }));
    process.env['PGPASSWORD'] = password;
    await inProcess('archive', 'migrate', '--to', server.to('archive_owner'));
    await inProcess('archive', 'send', '--once', '--to', server.to(benchRole(2)), '--data', there);
    delete process.env['PGPASSWORD'];
    const service = valueOf(openBench({ folder: here, clock: systemClock, version: 'test' }));
    const host = valueOf(await openLoopback({ service, files: valueOf(listPageFiles(screens)) }));
    const browser = await launchBrowser();
    onTestFinished(async () => {
      await browser.close();
      await host.close();
      await service.close();
    });
    const { page, faults } = await openPage(browser, host.link);
    const picture = async (name: string): Promise<void> => {
      const folder = process.env['ARCHIVE_PICTURES'];
      if (folder !== undefined) await page.screenshot({ path: join(folder, `${name}.png`) });
    };

    await page.getByRole('heading', { name: 'Put an axle on the stand' }).waitFor();
    await page.keyboard.press(',');
    await page.getByRole('button', { name: 'Send to an archive' }).click();
    await page.getByLabel('Address of the archive').fill(server.to(benchRole(1)));
    await page.getByLabel('Password of the role').fill('wrong');
    await page.getByRole('button', { name: 'Test it' }).click();
    await page.getByText('refuses the password').waitFor();
    await picture('wrong');
    await page.getByLabel('Password of the role').fill(password);
    await page.getByRole('button', { name: 'Test it' }).click();
    await page.getByText('It would take what this bench sends.').waitFor();
    await page.getByRole('button', { name: 'Send there' }).click();
    await page.getByText('Chosen. What waits is on its way.').waitFor();
    await page.keyboard.press('Escape');
    await page.getByText('Nothing has been sent to').waitFor();
    await picture('settings');
    await page.keyboard.press('Escape');

    await goTo(page, { at: 'shop' });
    await page.getByLabel('Find').fill('hoist');
    await page.getByRole('button', { name: 'Hoist axle 31' }).waitFor();
    await picture('found');
    await page.getByRole('button', { name: 'Hoist axle 31' }).click();
    await page.getByText('At other benches').waitFor({ state: 'detached' });
    expect((await service.answers['builds.read']({ build: 'b1' })).ok).toBe(true);

    const other = valueOf(openBench({ folder: there, clock: systemClock, version: 'test' }));
    onTestFinished(async () => void (await other.close()));
    valueOf(await other.answers['settings.change']({ change: { benchName: 'Stand 2' } }));
    valueOf(
      await other.answers['archive.choose']({
        address: server.to(benchRole(2)),
        password,
        authority: { none: 'known to everybody' },
      }),
    );
    const note = async (bench: typeof service, text: string): Promise<void> => {
      const deed = { kind: 'noted', topic: 'note', text } as const;
      valueOf(await bench.answers['builds.write']({ build: 'b1', by: 'A. Tester', deed }));
    };
    await note(service, 'Written here');
    await note(other, 'Written at the other stand');
    await page.getByText('Stand 2 wrote in this build too').waitFor();
    await picture('beside');
    await page.getByRole('button', { name: 'Bring it here' }).click();
    await page.getByText('wrote in this build too').waitFor({ state: 'detached' });
    const texts = valueOf(await service.answers['builds.read']({ build: 'b1' })).entries.flatMap(({ deed }) =>
      deed.kind === 'noted' ? [deed.text] : [],
    );
    expect(texts.slice(-2)).toEqual(['Written here', 'Written at the other stand']);

    await goTo(page, { at: 'shop' });
    await page.getByText('None of theirs has these words.').waitFor();
    server.stop('immediate');
    // Nobody types: the list itself says that it is of this bench alone, and that it is not any more.
    await page.getByText('Shown are the builds of this bench alone.').waitFor();
    await picture('away');
    server.start();
    await page.getByText('None of theirs has these words.').waitFor();
    expect(faults).toEqual([]);
  },
);
