import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { modbusServer } from '../../hardware-sim/lines/modbusServer.ts';
import { type Line, serveLine } from '../../hardware-sim/lines/line.ts';
import { valueOf } from '../support/bench/open.ts';
import { type BenchPage, openBenchPage } from '../support/benchPage.ts';
import { show } from './everyScreen.ts';

let bench: BenchPage;
beforeAll(async () => {
  bench = await openBenchPage();
});
afterAll(() => bench.close());

async function served(answer: (bytes: Uint8Array) => readonly Uint8Array[]): Promise<Line> {
  const line = await serveLine({ kind: 'pty' });
  onTestFinished(() => line.end());
  line.onBytes((bytes) => {
    for (const each of answer(bytes)) void line.write(each);
  });
  return line;
}

const pathOf = ({ link }: Line): string => link.replace(/^serial:/u, '');
const kept = async (label: string) =>
  valueOf(await bench.service.answers['gauges.list']({})).find((gauge) => gauge.label === label);

// A pseudo-terminal carries the question and the answer; only Linux has one that can be served from here.
const onLinux = { skip: process.platform !== 'linux' };

it(
  'plugs in a gauge asked over Modbus by filling in a form, each wrong value marked at its field',
  onLinux,
  async () => {
    // Thousandths in two registers from 40 on, the lower half first.
    const words = new Map([
      [40, 1237],
      [41, 0],
    ]);
    const line = await served(modbusServer({ unit: 3, register: (address) => words.get(address) }));
    const { page, faults } = await bench.open();
    await show(page, { at: 'gauges' });
    await page.getByRole('button', { name: 'At another port' }).click();
    await page.getByLabel('Name in the shop').fill('Old counter');
    await page.getByLabel('Resolution', { exact: true }).fill('0.001');
    await page.getByText('Modbus at a port').click();
    const field = (name: string) => page.getByRole('textbox', { name, exact: true });
    await field('Unit address').fill('300');
    await field('Scale').fill('none');
    const keep = page.locator('.button--next');
    await keep.click();
    await page.getByText('Allowed for unit: a whole number from 1 to 247.').waitFor();
    await page.getByText('Allowed for scale: a number like 0.001.').waitFor();
    // The first one that is wrong has the caret: the port.
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('combobox');
    await page.keyboard.type(pathOf(line));
    await page.getByRole('button', { name: /Baud rate/u }).click();
    await page.getByRole('option', { name: '19200' }).click();
    await field('Unit address').fill('3');
    await field('Register').fill('40');
    await field('Scale').fill('0,001');
    await page.getByRole('button', { name: /Number in it/u }).click();
    await page.getByRole('option', { name: 'Whole, ±, two registers' }).click();
    await page.getByRole('button', { name: /Upper half is in/u }).click();
    await page.getByRole('option', { name: 'The first one' }).click();
    await page.getByRole('button', { name: 'Show its registers' }).click();
    await page.getByText('Registers 40 and 41: 1237 and 0').waitFor();
    const picture = process.env['CHECK_PICTURE'];
    if (picture !== undefined) await page.screenshot({ path: join(picture, 'registers.png') });
    await page.getByRole('button', { name: '1.237: whole, two registers, upper half second' }).click();
    await page
      .getByRole('button', { name: /how often: no parity, 1 stop bit, holding registers, every 100 ms/u })
      .click();
    await page.getByLabel('Asked every so many milliseconds').fill('1');
    await page.getByText('Allowed for every: a whole number from 20', { exact: false }).first().waitFor();
    await page.getByLabel('Asked every so many milliseconds').fill('50');
    await page.keyboard.press('Escape');
    await keep.click();
    await page.locator('.readout .live__digits', { hasText: '1.237' }).waitFor();
    expect(await kept('Old counter')).toMatchObject({
      link: `modbus:${pathOf(line)}?baud=19200&unit=3&register=40&type=s32&order=low-first&scale=0.001&every=50`,
      unit: 'mm',
    });

    // Back in the form every setting stands in its field.
    await page.getByRole('button', { name: 'Change the record' }).click();
    expect(await page.getByRole('combobox', { name: 'Baud rate' }).inputValue()).toBe('19200');
    expect(await field('Register').inputValue()).toBe('40');
    await page.getByText('holding registers, every 50 ms').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  },
);

it('asks a serial gauge what the form says, and sets its handshake lines', onLinux, async () => {
  let heard = '';
  const line = await served((bytes) => {
    heard += Buffer.from(bytes).toString('latin1');
    const asked = heard.split('\u001BD\r\n').length - 1;
    heard = heard.slice(heard.lastIndexOf('\n') + 1);
    return Array.from({ length: asked }, () => Buffer.from('+0.512 mm\r\n'));
  });
  const { page, faults } = await bench.open();
  await show(page, { at: 'gauges' });
  await page.getByRole('button', { name: 'At another port' }).click();
  await page.getByLabel('Name in the shop').fill('Asked indicator');
  await page.getByLabel('Resolution', { exact: true }).fill('0.001');
  await page.getByRole('combobox', { name: 'Port' }).fill(pathOf(line));
  await page.getByText('Only when it is asked').click();
  await page.getByLabel('It is asked with').fill('%1BD');
  await page.getByRole('button', { name: /End of the request/u }).click();
  await page.getByRole('option', { name: 'then CR LF' }).click();
  await page.getByLabel('Every so many milliseconds').fill('60');
  await page.getByRole('button', { name: /handshake/u }).click();
  await page.getByText('7', { exact: true }).click();
  await page.getByRole('button', { name: /RTS line/u }).click();
  await page.getByRole('option', { name: 'Off' }).click();
  await page.keyboard.press('Escape');
  await page.getByText('7 bits, no parity, 1 stop bit, RTS off').waitFor();
  // The same as a link stands beside it, and a link put in there fills in the fields: a pseudo-terminal carries 8 bits.
  const whole = `serial:${pathOf(line)}?baud=9600&bits=7&rts=0&ask=%1BD%0D%0A&every=60`;
  await page.getByRole('button', { name: `The same as a link: ${whole}` }).click();
  await page.getByRole('textbox', { name: 'Link' }).fill(whole.replace('bits=7&rts=0&', ''));
  await page.keyboard.press('Escape');
  await page.getByText('8 bits, no parity, 1 stop bit', { exact: true }).waitFor();
  await page.locator('.button--next').click();
  await page.locator('.readout .live__digits', { hasText: '0.512' }).waitFor();
  expect((await kept('Asked indicator'))?.link).toBe(whole.replace('bits=7&rts=0&', ''));
  expect(faults).toEqual([]);
  await page.context().close();
});
