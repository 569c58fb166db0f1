import { roomsOf, type Rooms } from './rooms.ts';
import type { SourceFile } from './sources.ts';

const width = 960;
const floorHeight = 128;
const boxHeight = 56;

interface Box {
  readonly room: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** The rooms of a folder on their floors, with how many imports lead from each to each below it, as SVG. */
export function picture(files: readonly SourceFile[], folder: string): string {
  const rooms = roomsOf(files, folder);
  const boxes = rooms.floors.flatMap(placed);
  const height = rooms.floors.length * floorHeight + 24;
  const lines = [...rooms.arrows].map(([arrow, count]) => line(arrow, count, boxes));
  const walls = boxes.map((box) => wall(box, linesOf(files, `${folder}/${box.room}`)));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" font-family="Inter, sans-serif" role="img">`,
    `<title>${title(folder, rooms)}</title>`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    ...lines,
    ...walls,
    '</svg>',
    '',
  ].join('\n');
}

const title = (folder: string, { floors, arrows, backUp }: Rooms): string =>
  `${folder}: ${floors.flat().length} rooms on ${floors.length} floors, ${arrows.size} arrows, ${backUp.length} back up`;

function placed(floor: readonly string[], index: number): readonly Box[] {
  const each = Math.min(260, (width - 40) / floor.length - 20);
  const left = (width - floor.length * (each + 20) + 20) / 2;
  return floor.map((room, n) => ({ room, x: left + n * (each + 20), y: 24 + index * floorHeight, width: each }));
}

function wall({ room, x, y, width: wide }: Box, lines: number): string {
  const middle = x + wide / 2;
  return [
    `<rect x="${x.toFixed(1)}" y="${y}" width="${wide.toFixed(1)}" height="${boxHeight}" rx="4" fill="#f3f1ec" stroke="#33373a"/>`,
    `<text x="${middle.toFixed(1)}" y="${y + 25}" text-anchor="middle" font-size="17" font-weight="600" fill="#1d2022">${room}</text>`,
    `<text x="${middle.toFixed(1)}" y="${y + 44}" text-anchor="middle" font-size="12" fill="#5b6166">${(Math.round(lines / 100) / 10).toFixed(1)} thousand lines</text>`,
  ].join('\n');
}

function line(arrow: string, count: number, boxes: readonly Box[]): string {
  const [from = '', to = ''] = arrow.split(' -> ');
  const [above, below] = [boxes.find(({ room }) => room === from), boxes.find(({ room }) => room === to)];
  if (above === undefined || below === undefined) return '';
  const [x1, y1] = [above.x + above.width / 2, above.y + boxHeight];
  const [x2, y2] = [below.x + below.width / 2, below.y];
  const thick = Math.min(6, 0.6 + Math.sqrt(count) / 4).toFixed(2);
  return `<line x1="${x1.toFixed(1)}" y1="${y1}" x2="${x2.toFixed(1)}" y2="${y2}" stroke="#9aa4ab" stroke-width="${thick}"><title>${arrow}: ${count}</title></line>`;
}

const linesOf = (files: readonly SourceFile[], folder: string): number =>
  files.reduce((sum, { path, text }) => sum + (path.startsWith(`${folder}/`) ? text.split('\n').length - 1 : 0), 0);
