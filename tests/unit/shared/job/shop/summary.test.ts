import { describe, expect, it } from 'vitest';
import { readNotebook } from '../../../../../src/shared/job/records/build.ts';
import type { Notebook } from '../../../../../src/shared/job/records/notebook.ts';
import { buildSummarySchema, summaryOf } from '../../../../../src/shared/job/shop/summary.ts';
import { certified, finished, notebookOf, twoTrials } from '../../../../support/records/finished.ts';

const told = ({ id, entries }: Notebook) => summaryOf(readNotebook(id, entries), entries);

describe('a build in one line', () => {
  it('is what its schema says, with nothing undefined in it', () => {
    const summary = told(finished('b1', { makeUp: { axleName: 'Rear 205' } }));
    expect(buildSummarySchema.parse(JSON.parse(JSON.stringify(summary)))).toStrictEqual(summary);
    expect(summary).toMatchObject({ axle: 'Rear 205', trials: 2, changes: 1, standsAt: 'Trial 2' });
  });

  it('says how far it has come and what comes next', () => {
    expect(told(notebookOf('b1', {}))).toMatchObject({ stage: 'begun', next: { do: 'describe-axle' }, standsAt: '' });
    const deeds = twoTrials();
    expect(told(notebookOf('b1', {}, ...deeds.slice(0, 3)))).toMatchObject({ stage: 'trials', next: { do: 'check' } });
    expect(told(notebookOf('b1', {}, ...deeds.slice(0, 6)))).not.toHaveProperty('changes');
    expect(told(notebookOf('b1', {}, ...deeds))).toMatchObject({ stage: 'trials', changes: 1 });
  });

  it('is certified only while nothing was read after its certificate', () => {
    const done = notebookOf('b1', {}, ...twoTrials(), certified);
    expect(told(done).certified).toMatchObject({ complete: true });
    // Two trials and a certificate without a final assembly: the certificate is there, the build is not closed.
    expect(told(done).stage).toBe('trials');
  });

  it('takes the customer, the plate and the numbers of the set as they were typed last', () => {
    const summary = told(
      notebookOf(
        'b1',
        {},
        { kind: 'noted', topic: 'customer', text: 'M. Ostrander' },
        { kind: 'noted', topic: 'plate', text: 'AB-12 CD' },
        { kind: 'noted', topic: 'plate', text: 'AB-12 CE' },
        ...twoTrials(),
        {
          kind: 'measured',
          assembly: 'e6',
          check: 'set-numbers',
          how: { kind: 'seen' },
          result: { kind: 'set-numbers', pinion: '77', ringGear: '77' },
        },
      ),
    );
    expect(summary).toMatchObject({
      customer: 'M. Ostrander',
      plate: 'AB-12 CE',
      set: { pinion: '77', ringGear: '77' },
    });
  });
});
