/** A sign belongs to the number that follows it, however far: "-  0.1" is one number. The sign of an exponent is none. */
export const signsJoined = (text: string): string => text.replaceAll(/(?<![\d.,][eE])([+-])\s+(?=[\d.,])/gu, '$1');

/** The fields of a line by a separator; a blank stands for any run of them. */
export const fieldsOf = (text: string, separator: string): string[] =>
  separator.trim() === '' ? signsJoined(text.trim()).split(/\s+/u) : text.split(separator);
