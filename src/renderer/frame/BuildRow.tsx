import { checkOf } from '../../shared/job/checks/checks.ts';
import type { BuildSummary } from '../../shared/contract/builds.ts';
import { type Stage, stages } from '../../shared/job/shop/summary.ts';
import { StageMark } from '../parts/StageMark.tsx';
import { go } from '../stores/route.ts';
import { dayWords } from '../words/days.ts';
import { nextBrief } from '../words/next.ts';
import { JobRow } from './JobRow.tsx';

const stageWords: Readonly<Record<Stage, string>> = {
  begun: 'Not assembled yet',
  'as-found': 'As found',
  trials: 'In trials',
  final: 'Final',
  certified: 'Certified',
};

/** One build of the list: how far it has come, where it stands and what is next, who works on it and since when not. */
export const BuildRow = ({ build }: { readonly build: BuildSummary }) => (
  <JobRow
    title={build.title}
    below={`${standsWords(build)}: ${nextWordsOf(build)}`}
    also={`${build.technician}, ${dayWords(build.lastEntryAt)}`}
    mark={<StageMark done={stages.indexOf(build.stage)} of={stages.length - 1} />}
    onPress={() => go({ at: 'build', build: build.id })}
  />
);

/** The assembly on the stand says more than the phase. */
const standsWords = ({ stage, standsAt }: BuildSummary): string =>
  stage === 'certified' || standsAt === '' ? stageWords[stage] : standsAt;

const nextWordsOf = ({ next }: BuildSummary): string =>
  nextBrief(next.do, next.check === undefined ? undefined : checkOf(next.check));
