import { assemblyName, type Build } from '../../shared/job/records/build.ts';
import type { Method } from '../../shared/job/checks/checks.ts';
import type { Next } from '../../shared/job/checks/readiness.ts';
import type { Route } from '../stores/route.ts';
import { noCase } from '../../shared/basics/noCase.ts';

/** What comes next, as words for the one action and as the place where it is done. */
export interface NextWords {
  readonly words: string;
  readonly why: string;
  readonly route: Route;
}

/** The verb that fits how a check is answered. */
const verbs: Readonly<Record<Method, string>> = {
  backlash: 'Measure',
  runout: 'Measure',
  torque: 'Measure',
  length: 'Enter',
  fastener: 'Enter',
  feeler: 'Try',
  'set-numbers': 'Read',
  shims: 'Measure',
  confirm: 'Confirm',
  mark: 'Draw',
};

export function nextWords(build: Build, next: Next): NextWords {
  const at = { build: build.id };
  switch (next.do) {
    case 'describe-axle':
      return {
        words: 'Describe the axle',
        why: 'How the axle is made decides which steps are asked and what they mean.',
        route: { at: 'axle', ...at },
      };
    case 'enter-limits':
      return {
        words: 'Enter the limits',
        why: 'The bench has no limits of its own: they come from the maker’s manual, with their source.',
        route: { at: 'limits', ...at },
      };
    case 'open-as-found':
      return {
        words: 'Begin as found',
        why: 'What the axle shows before anything is loosened is lost once it is stripped.',
        route: { at: 'assemble', ...at, phase: 'as-found' },
      };
    case 'open-stripping':
      return {
        words: 'Now strip it',
        why: 'What the axle shows still together is recorded. As it comes apart: caps marked, shims by place, pinion torque alone.',
        route: { at: 'assemble', ...at, phase: 'stripping' },
      };
    case 'open-trial':
      return {
        words: build.assemblies.some(({ phase }) => phase === 'trial') ? 'Open the next trial' : 'Open the first trial',
        why: 'One assembly with one set of shims, on set-up bearings, without sleeve or seal.',
        route: { at: 'assemble', ...at, phase: 'trial' },
      };
    case 'look-at-plan':
      return {
        words: 'See the next shim',
        why: 'Backlash and both marks are there: which shim to change, by how much, and what it will do.',
        route: { at: 'plan', ...at },
      };
    case 'swap':
      return {
        words: 'Go by the swap card',
        why: 'What comes out, what goes in and where; the pack is measured before anything is put together.',
        route: { at: 'swap', ...at, swap: next.swap },
      };
    case 'open-final':
      return {
        words: 'Open the final assembly',
        why: 'The mark was accepted. Good bearings, sleeve or spacer, and the seal go in now.',
        route: { at: 'assemble', ...at, phase: 'final' },
      };
    case 'issue-certificate':
      return {
        words: 'Issue the certificate',
        why: 'Everything asked for is there. The certificate says which readings lie within the limits entered.',
        route: { at: 'certificate', ...at },
      };
    case 'check':
      return {
        words: `${verbs[next.check.method]} ${lower(next.check.title)}`,
        why: next.check.how,
        route: { at: 'check', ...at, assembly: next.assembly, check: next.check.id },
      };
    case 'settle':
      return {
        words: `Settle ${lower(next.state.check.title)}`,
        why: `${next.state.check.title} stands in the way${onWhich(build, next.assembly)}.`,
        route: { at: 'settle', ...at, assembly: next.assembly, check: next.state.check.id },
      };
    default:
      throw noCase(next);
  }
}

const lower = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);

function onWhich(build: Build, id: string): string {
  const assembly = build.assemblies.find((one) => one.id === id);
  return assembly === undefined ? '' : ` of ${assemblyName(assembly).toLowerCase()}`;
}
