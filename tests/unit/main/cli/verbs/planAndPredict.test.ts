import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { runCommandLine } from '../../../../../src/main/cli/run.ts';
import { plan } from '../../../../../src/main/cli/verbs/plan.ts';
import { predict } from '../../../../../src/main/cli/verbs/predict.ts';
import { asked, mark, trial } from '../../../shared/axle/plan/scenes.ts';

const set = { pinionTeeth: 11, ringTeeth: 41, outerDiameter_mm: 220 };

/** Runs a verb on these lines as the shell would. */
async function run(verb: string, lines: readonly unknown[]) {
  const folder = mkdtempSync(join(tmpdir(), 'plan-'));
  const path = join(folder, 'in.jsonl');
  writeFileSync(path, lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
  const answers: unknown[] = [];
  const said: string[] = [];
  const code = await runCommandLine([plan, predict], [verb, '--in', path, '--json'], {
    answer: (value) => void answers.push(JSON.parse(JSON.stringify(value))),
    say: (sentence) => void said.push(sentence),
  });
  rmSync(folder, { recursive: true });
  return { code, answers, said: said.join('\n') };
}

test('predict answers every line in order, with the keys of the contract', async () => {
  const { code, answers } = await run('predict', [set, { ...set, ringTeeth: 37 }]);
  expect(code).toBe(0);
  expect(answers).toHaveLength(2);
  // Spiral bevel cones: tan of the ring gear's angle is the ratio.
  expect(answers[0]).toMatchObject({ pitchAngle_deg: { ring: expect.closeTo(74.98, 1) }, faceWidth_mm: 33 });
  expect(answers[1]).toMatchObject({ pitchAngle_deg: { ring: expect.closeTo(73.44, 1) } });
  expect(Object.keys(answers[0] as object).toSorted()).toEqual([
    'assumed',
    'backlash',
    'faceWidth_mm',
    'flankHeight_mm',
    'pattern',
    'pitchAngle_deg',
    'spiral_deg',
  ]);
});

test('plan answers every line in order, with exactly the keys of the contract', async () => {
  const low = trial({ pattern: { drive: mark({ crown: -0.25 }), coast: mark({ crown: -0.2 }) } });
  const { code, answers } = await run('plan', [asked({ trials: [low] }), asked()]);
  expect(code).toBe(0);
  expect(answers).toMatchObject([{ decision: 'change' }, { decision: 'leave', pinionOut_mm: 0, ringAway_mm: 0 }]);
  const first = answers[0] as { readonly expected: object };
  expect(Object.keys(first)).toEqual([
    'decision',
    'chance',
    'look',
    'pinionOut_mm',
    'ringAway_mm',
    'expected',
    'reasons',
    'warnings',
  ]);
  expect(Object.keys(first.expected)).toEqual(['backlash', 'pattern', 'U95']);
});

test('a wrong field ends with 2, names its line, and answers nothing', async () => {
  const wrong = await run('plan', [asked(), { ...asked(), shimStep_mm: { pinion: 0.02 } }]);
  expect(wrong).toMatchObject({ code: 2, answers: [] });
  expect(wrong.said).toContain('Line 2: shimStep_mm.side');
  const misspelt = await run('predict', [{ ...set, ofset_mm: 30 }]);
  expect(misspelt).toMatchObject({ code: 2, answers: [] });
  expect(misspelt.said).toMatch(/Line 1: .*ofset_mm/u);
});

test('fields that fit no set together are named too', async () => {
  const { code, said } = await run('plan', [asked({ set: { ...asked().set, ringTeeth: 14, pinionTeeth: 20 } })]);
  expect(code).toBe(2);
  expect(said).toContain('Line 1: set.ringTeeth: the ring gear must have more teeth than the pinion');
});

test('a set that no cutter could make says so in its own place, and the verb ends with 1', async () => {
  const impossible = {
    ...set,
    faceWidth_mm: 80,
    pinionSpiral_deg: 60,
    offset_mm: 60,
    cut: 'face-milled',
    cutterRadius_mm: 40,
  };
  const { code, answers } = await run('predict', [set, impossible, set]);
  expect(code).toBe(1);
  expect(answers).toHaveLength(3);
  expect(answers[1]).toMatchObject({ none: expect.stringContaining('cannot mesh') });
});
