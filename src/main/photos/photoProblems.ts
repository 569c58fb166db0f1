import { mostPixels, type PictureSize } from '../../shared/axle/mark/pictureHead.ts';
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

export const noPicture = (file: string): Problem => ({
  kind: 'no-picture',
  field: 'file',
  sentence: `${file} is not a picture that can be shown.`,
  remedy: 'Save it as JPEG, or put it aside.',
});

export const tooManyPixels = (file: string, { width, height }: PictureSize): Problem => ({
  kind: 'photo-too-large',
  field: 'file',
  sentence: `${file} is ${width} by ${height} pixels, more than the ${mostPixels / 1e6} million that are taken.`,
  remedy: 'Take it with the ordinary camera setting, as JPEG.',
});
