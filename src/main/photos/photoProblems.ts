import type { Problem } from '../../shared/basics/result.ts';

export const brokenPhoto: Problem = {
  kind: 'broken-photo',
  field: 'photo',
  sentence: 'This is not a whole JPEG picture.',
  remedy: 'Choose the photo again; if it stays so, take another one.',
};

export const noSuchPhoto: Problem = {
  kind: 'no-photo',
  field: 'sha256',
  sentence: 'This photo is not in this data folder.',
  remedy: 'It lies in the data folder of the bench that took it, and in a backup of that.',
};

export const goneArrival = (file: string): Problem => ({
  kind: 'no-photo',
  field: 'file',
  sentence: `${file} is not in the watched folder any more.`,
  remedy: 'Choose the photo from where it lies now.',
});

export const tooLargeFile = (file: string): Problem => ({
  kind: 'photo-too-large',
  field: 'file',
  sentence: `${file} is larger than 60 MB, which no photo of a tooth needs to be.`,
  remedy: 'Take it with the ordinary camera setting, as JPEG.',
});
