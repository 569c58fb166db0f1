import type { Assembly } from '../../../../shared/job/records/build.ts';
import { timeWords } from '../../../words/days.ts';

const bearingWords = { 'set-up': 'Set-up bearings', new: 'New bearings', used: 'Used bearings' } as const;

/** Before the first trial nothing has been put together here yet. */
const isAsItCame = ({ phase }: Assembly): boolean => phase === 'as-found' || phase === 'stripping';

/** With what this assembly was put together. */
export const AssemblyFacts = ({ assembly }: { readonly assembly: Assembly }) => (
  <p className="quiet">
    {bearingWords[assembly.bearings]}, seal {assembly.seal}, {assembly.sleeve ? 'sleeve or spacer in' : 'no sleeve'}.{' '}
    {isAsItCame(assembly) ? 'Begun' : 'Put together'} {timeWords(assembly.at)}.
  </p>
);
