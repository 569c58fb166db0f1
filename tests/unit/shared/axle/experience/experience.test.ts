import { describe, expect, it } from 'vitest';
import { experienceFrom } from '../../../../../src/shared/axle/experience/experience.ts';
import { lessonAt, lessonFrom } from '../../../../../src/shared/axle/experience/lesson.ts';
import { axleFrom, guessSize, taughtAt } from '../../../../../src/shared/axle/plan/guess.ts';
import { insightFrom } from '../../../../../src/shared/axle/plan/insight.ts';
import type { PlanInput } from '../../../../../src/shared/axle/plan/input.ts';
import { plan } from '../../../../../src/shared/axle/plan/plan.ts';
import { backlashAnswer, priorOf, soundCutting } from '../../../../../src/shared/axle/plan/priorOf.ts';
import { sightOf } from '../../../../../src/shared/axle/plan/sight.ts';
import { asked } from '../plan/scenes.ts';
import { builds, lesson, sharesAll, sharing } from './lessons.ts';

const from = '6 earlier builds of this axle';

function priorWith(input: PlanInput) {
  const sight = sightOf(input);
  if (!sight.ok) throw new Error(sight.problem.sentence);
  return { prior: priorOf(input, sight.value, soundCutting), sight: sight.value };
}

describe('what earlier builds tell the plan', () => {
  it('is nothing where there are none, or none that have anything in common', () => {
    expect(experienceFrom([], from)).toBeUndefined();
    expect(experienceFrom(builds([1, 1, 1], sharing()), from)).toBeUndefined();
  });

  it('moves the usual axle: film, relief and backlash lie where the builds had them', () => {
    const experience = experienceFrom(builds(Array.from({ length: 12 }, () => 1)), from);
    expect(experience?.from).toBe(from);
    const plain = priorWith(asked()).prior;
    const { prior } = priorWith({ ...asked(), ...(experience === undefined ? {} : { experience }) });
    const usual = new Float64Array(guessSize(0));
    const [before, after] = [axleFrom(plain, usual), axleFrom(prior, usual)];
    expect(after.film / before.film).toBeGreaterThan(1.2);
    expect(after.relief.drive.a / before.relief.drive.a).toBeGreaterThan(1.3);
    expect(prior.perRingAway.mean).toBeGreaterThan(backlashAnswer.perRingAway.mean + 0.08);
    expect(prior.perRingAway.spread).toBeLessThan(backlashAnswer.perRingAway.spread);
  });

  it('changes nothing where the builds say nothing', () => {
    const silent = [{ id: 'b', lesson: lesson([], 1e5), shares: sharesAll }];
    const experience = experienceFrom(silent, from);
    experience?.taught.mean.forEach((value) => expect(value).toBeCloseTo(0, 6));
    expect(experience?.taught.lower[0]).toBeCloseTo(1, 6);
    expect(experience?.perRingAway.mean).toBeCloseTo(backlashAnswer.perRingAway.mean, 6);
    expect(experience?.perRingAway.spread).toBeCloseTo(backlashAnswer.perRingAway.spread, 6);
  });

  it('gives way where this axle shows otherwise', () => {
    const input = asked();
    const taught = (value: number): PlanInput => {
      const experience = experienceFrom(builds(Array.from({ length: 12 }, () => value)), from);
      return experience === undefined ? input : { ...input, experience };
    };
    const followed = (value: number): number => {
      const { sight } = priorWith(input);
      return insightFrom(taught(value), sight).followsEarlier ?? Number.NaN;
    };
    // Marks far larger than those builds ever showed: film at its thinnest, relief at its strongest.
    const [near, far] = [followed(0), followed(-2.5)];
    expect(near).toBeGreaterThan(0.75);
    expect(far).toBeLessThan(near);
  });
});

describe('what one build teaches', () => {
  it('is the same each time, and does not lean on what was learnt before', () => {
    const input = asked();
    const experience = experienceFrom(builds([1, 1, 1]), from);
    if (experience === undefined) throw new Error('three builds teach something');
    const [alone, taught] = [lessonFrom(input), lessonFrom({ ...input, experience })];
    if (!alone.ok || !taught.ok) throw new Error('this build teaches something');
    expect(taught.value).toEqual(alone.value);
  });

  it('is more the more trials there were', () => {
    const input = asked();
    const [first] = input.trials;
    if (first === undefined) throw new Error('a scene has a trial');
    const second = {
      ...first,
      ringAway_mm: 0.1,
      backlash: { mean_mm: 0.32, min_mm: 0.3, max_mm: 0.34, U95_mm: 0.006 },
    };
    const [one, two] = [lessonFrom(input), lessonFrom({ ...input, trials: [first, second] })];
    if (!one.ok || !two.ok) throw new Error('these builds teach something');
    const last = lessonAt.length - 1;
    const known = (of: typeof one): number => of.value.information[last * lessonAt.length + last] ?? Number.NaN;
    expect(known(one)).toBeCloseTo(0, 3);
    expect(known(two)).toBeGreaterThan(1);
  });
});

describe('the plan with earlier builds', () => {
  it('does not change where there are none, and asks for the unknowns in one order', () => {
    const [without, again] = [plan(asked()), plan({ ...asked() })];
    expect(again).toEqual(without);
    expect(without.ok && without.value.reasons.join(' ')).not.toContain('earlier build');
    expect(lessonAt.slice(0, taughtAt.length)).toEqual(taughtAt);
  });

  it('says where its usual comes from, and where this axle does not go with it', () => {
    const taught = (value: number): readonly string[] => {
      const experience = experienceFrom(builds(Array.from({ length: 12 }, () => value)), from);
      const answer = plan({ ...asked(), ...(experience === undefined ? {} : { experience }) });
      return answer.ok ? answer.value.reasons : [];
    };
    expect(taught(0)).toContain(
      'What is usual comes from 6 earlier builds of this axle; these readings agree with it.',
    );
  });
});
