import type { TakenPicture } from './contactSheet.ts';

const lightLooks = (taken: readonly TakenPicture[]): readonly string[] =>
  [...new Set(taken.map(({ look }) => look))].filter((look) => look.endsWith('-light'));

const sizeOf = (look: string): string => look.replace(/-\w+$/u, '');

/** A table of what `cell` says of each picture, one row a screen and one column a size. */
function tableOf(taken: readonly TakenPicture[], cell: (picture: TakenPicture) => string): readonly string[] {
  const looks = lightLooks(taken);
  const names = [...new Set(taken.map(({ name }) => name))];
  const of = (name: string, look: string): string => {
    const one = taken.find((picture) => picture.name === name && picture.look === look);
    return one === undefined ? '–' : cell(one);
  };
  return [
    `| screen | ${looks.map(sizeOf).join(' | ')} |`,
    `| --- |${looks.map(() => ' --- |').join('')}`,
    ...names.map((name) => `| ${name} | ${looks.map((look) => of(name, look)).join(' | ')} |`),
  ];
}

/** The share of each stage in which nothing is drawn. */
export const blankTable = (taken: readonly TakenPicture[]): string =>
  ['Blank share of the stage:', '', ...tableOf(taken, ({ blank }) => `${Math.round(blank * 100)} %`)].join('\n');

/** Heights of what is read from the gear, each in minutes of arc from three metres on a ten-inch panel. */
export const letterTable = (taken: readonly TakenPicture[]): string =>
  [
    'Minutes of arc at 3 m on a ten-inch panel of what is read from the gear (wanted 7):',
    '',
    ...tableOf(
      taken.filter(({ far }) => Object.keys(far).length > 0),
      ({ far }) =>
        Object.entries(far)
          .map(([what, minutes]) => `${what} ${minutes.toFixed(1)}`)
          .join(', '),
    ),
  ].join('\n');

/** In how many pictures axe was asked, and what it found. Its colours are those of light and dark; grey is for the eye. */
export function axeTable(taken: readonly TakenPicture[]): string {
  const asked = taken.filter(({ look }) => isAskedOfAxe(look));
  const rows = [...new Set(asked.map(({ look }) => look))].map((look) => {
    const here = asked.filter((one) => one.look === look);
    const found = here.flatMap(({ faults }) => faults.filter((fault) => fault.startsWith('axe ')));
    return `| ${look} | ${here.length} | ${found.length} |`;
  });
  return [
    'Findings of axe (WCAG 2.2, A and AA):',
    '',
    '| look | pictures | findings |',
    '| --- | --- | --- |',
    ...rows,
  ].join('\n');
}

/** Whether the colours of a look are those of the screens. */
export const isAskedOfAxe = (look: string): boolean => /-(?:light|dark)$/u.test(look);

/** What a machine sees wrong in any of the pictures, the same fault of one screen once with its looks. */
export function faultList(taken: readonly TakenPicture[]): string {
  const looks = new Map<string, string[]>();
  for (const { name, look, faults } of taken)
    for (const fault of faults) {
      const line = `${name}: ${fault}`;
      looks.set(line, [...(looks.get(line) ?? []), look]);
    }
  const lines = [...looks].map(([line, where]) => `- ${line} (${where.join(', ')})`);
  return [`${lines.length} faults that a machine sees:`, ...lines].join('\n');
}
