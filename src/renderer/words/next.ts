import { assemblyName, type Build } from '../../shared/job/records/build.ts';
import type { Check, Method } from '../../shared/job/checks/checks.ts';
import type { Next } from '../../shared/job/checks/readiness.ts';
import type { Route } from '../stores/route.ts';
import { noCase } from '../../shared/basics/noCase.ts';

/** What comes next, as words for the one action and as the place where it is done. */
interface NextWords {
  readonly words: string;
  readonly why: string;
  readonly route: Route;
}

/** The verb that fits how a check is answered. */
const verbs: Readonly<Record<Method, string>> = {
  backlash: 'Measure',
  runout: 'Measure',
  torque: 'Measure',
  play: 'Measure',
  'case-play': 'Feel',
  spread: 'Enter',
  length: 'Enter',
  fastener: 'Enter',
  feeler: 'Try',
  'set-numbers': 'Read',
  shims: 'Measure',
  confirm: 'Confirm',
  notches: 'Count',
  mark: 'Read',
};

/** A mark is there to be read only once the teeth are painted: what stood in the way of that is done. */
const toDo = ({ method, title }: Check): string =>
  method === 'mark' ? 'Paint, and read the mark' : `${verbs[method]} ${lower(title)}`;

/** The steps that are the same for every build, as words; where they are done is said by {@link routeOf}. */
const plain = {
  'describe-axle': {
    words: 'Describe the axle',
    why: 'How the axle is made decides which steps are asked and what they mean.',
  },
  'enter-limits': {
    words: 'Enter the limits',
    why: 'The bench has no limits of its own: they come from the maker’s manual, with their source.',
  },
  'open-as-found': {
    words: 'Begin as found',
    why: 'What the axle shows before anything is loosened is lost once it is stripped.',
  },
  'open-stripping': {
    words: 'Now strip it',
    why: 'What the axle shows still together is recorded. As it comes apart: caps marked, shims by place, pinion torque alone.',
  },
  'look-at-plan': {
    words: 'See the next shim',
    why: 'Backlash and both marks are there: which shim to change, by how much, and what it will do.',
  },
  swap: {
    words: 'Go by the swap card',
    why: 'What comes out, what goes in and where; the pack is measured before anything is put together.',
  },
  'open-final': {
    words: 'Open the final assembly',
    why: 'The mark was accepted. Good bearings, sleeve or spacer, and the seal go in now.',
  },
  'issue-certificate': {
    words: 'Issue the certificate',
    why: 'Everything asked for is there. The certificate says which readings lie within the limits entered.',
  },
  'road-test': {
    words: 'Enter the road test',
    why: 'Short and easy at first, with a pause to cool, as the maker says. Then what was heard, and how warm it ran.',
  },
  comeback: {
    words: 'Begin the comeback',
    why: 'Something was heard on the road. A comeback begins as found again, with the same axle and limits.',
  },
  'next-axle': {
    words: 'Next axle',
    why: 'This one is closed, certified and was driven.',
  },
} as const satisfies Readonly<Record<Exclude<Next['do'], 'open-trial' | 'check' | 'settle'>, Omit<NextWords, 'route'>>>;

/** What comes next on a build. */
export const nextWords = (build: Build, next: Next): NextWords => ({
  ...wordsOf(build, next),
  route: routeOf(build.id, next),
});

/** What comes next in a list of builds, in as few words as say it. @param check which one, where it is one. */
export function nextBrief(what: Next['do'], check: Check | undefined): string {
  if (what === 'check') return check === undefined ? 'go on' : lower(toDo(check));
  if (what === 'settle') return check === undefined ? 'see to what is outside' : `see to ${lower(check.title)}`;
  return what === 'open-trial' ? 'open a trial' : lower(plain[what].words);
}

function wordsOf(build: Build, next: Next): Omit<NextWords, 'route'> {
  if (next.do === 'check') return { words: toDo(next.check), why: next.check.how };
  if (next.do === 'settle') {
    const { title } = next.state.check;
    return {
      words: `What to do about ${lower(title)}`,
      why: `${title} stands in the way${onWhich(build, next.assembly)}.`,
    };
  }
  return next.do === 'open-trial' ? trialWords(build) : plain[next.do];
}

/** Where the job stands, after "Go on": "trial 2, backlash". */
export function goOnWords(build: Build, next: Next): string {
  if (next.do !== 'check' && next.do !== 'settle') return lower(wordsOf(build, next).words);
  const check = next.do === 'check' ? next.check : next.state.check;
  const assembly = build.assemblies.find((one) => one.id === next.assembly);
  return assembly === undefined ? lower(check.title) : `${lower(assemblyName(assembly))}, ${lower(check.title)}`;
}

/** The first trial follows the stripping, each later one what the one before it showed. */
const trialWords = ({ assemblies }: Build): Omit<NextWords, 'route'> => ({
  words: assemblies.some(({ phase }) => phase === 'trial') ? 'Open the next trial' : 'Open the first trial',
  why: 'One assembly with one set of shims, on set-up bearings, without sleeve or seal.',
});

function routeOf(build: string, next: Next): Route {
  switch (next.do) {
    case 'describe-axle':
      return { at: 'axle', build };
    case 'enter-limits':
      return { at: 'limits', build };
    case 'open-as-found':
      return { at: 'assemble', build, phase: 'as-found' };
    case 'open-stripping':
      return { at: 'assemble', build, phase: 'stripping' };
    case 'open-trial':
      return { at: 'assemble', build, phase: 'trial' };
    case 'look-at-plan':
      return { at: 'plan', build };
    case 'swap':
      return { at: 'swap', build, swap: next.swap };
    case 'open-final':
      return { at: 'assemble', build, phase: 'final' };
    case 'issue-certificate':
      return { at: 'certificate', build };
    case 'road-test':
      return { at: 'road-test', build };
    case 'comeback':
      return { at: 'builds', comebackOf: build };
    case 'next-axle':
      return { at: 'builds' };
    case 'check':
      return { at: 'check', build, assembly: next.assembly, check: next.check.id };
    case 'settle':
      return { at: 'settle', build, assembly: next.assembly, check: next.state.check.id };
    default:
      throw noCase(next);
  }
}

const lower = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);

function onWhich(build: Build, id: string): string {
  const assembly = build.assemblies.find((one) => one.id === id);
  return assembly === undefined ? '' : ` of ${assemblyName(assembly).toLowerCase()}`;
}
