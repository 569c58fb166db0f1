import { describe, expect, it } from 'vitest';
import { receivedWords } from '../../../../../../src/renderer/screens/bench/gauges/received.ts';

const mm = (value: number) => ({ value, unit: 'mm' });

describe('a received value', () => {
  it('keeps the noughts it ended in', () => {
    const words = receivedWords(mm(0.001));
    expect(words(mm(1.23), [])).toBe('1.230 mm');
    expect(words(mm(-1), [])).toBe('−1.000 mm');
  });

  it('has the decimals of its neighbours where no step is known', () => {
    const words = receivedWords();
    const lines = [mm(1.23), mm(1.2), mm(1.231)];
    expect(lines.map((line) => words(line, lines))).toEqual(['1.230 mm', '1.200 mm', '1.231 mm']);
    expect(words(mm(1.5), [mm(1.5)])).toBe('1.5 mm');
  });

  it('does not take them from another unit', () => {
    expect(receivedWords(mm(0.001))({ value: 0.05, unit: '[in_i]' }, [mm(1.2345)])).toMatch(/^0\.05 /u);
    expect(receivedWords()({ value: 12, unit: '' }, [])).toBe('12 (no unit sent)');
  });

  it('shows what no display has as it came', () => {
    expect(receivedWords()(mm(1.25e-9), [])).toBe('1.25e−9 mm');
  });
});
