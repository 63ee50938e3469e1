import { expect, test } from 'vitest';
import { keepFigures } from '../../src/client/keep-figures.ts';
import { plainText, richText } from '../../src/client/rich-text.ts';

test('paragraphs, lists, strong and emphasis become data', () => {
  const text = richText('One **two *three***\nfour.\n\n- a\n- b *c*\n\n1. x\n   - inner\n2. y');
  expect(text[0]).toEqual({
    kind: 'paragraph',
    runs: [
      { text: 'One ', strong: false, emphasis: false },
      { text: 'two ', strong: true, emphasis: false },
      { text: 'three', strong: true, emphasis: true },
      { text: ' four.', strong: false, emphasis: false },
    ],
  });
  expect(text.slice(1).map((block) => (block.kind === 'list' ? [block.ordered, block.items.length] : []))).toEqual([
    [false, 2],
    [true, 3],
  ]);
});

test('HTML, links and pictures in the words of a maker stay words', () => {
  const source = '<script>alert(1)</script> [a](javascript:alert(1)) ![b](https://example.invalid/x.png)';
  expect(richText(source)).toEqual([{ kind: 'paragraph', runs: [{ text: source, strong: false, emphasis: false }] }]);
});

test('straight quotes become real ones', () => {
  expect(plainText(`"our arms hit it" -- it's a 'bollard'`)).toBe('“our arms hit it” – it’s a ‘bollard’');
});

test('a line never parts a figure from its unit, its fraction or its multiplication sign', () => {
  const space = '\u202f';
  expect(keepFigures('90 mm off, 12 kg, 5 %, 3½ lb')).toBe(`90${space}mm off, 12${space}kg, 5${space}%, 3½${space}lb`);
  expect(keepFigures('60 × 24 mm, 60×24')).toBe(`60\u00a0× 24${space}mm, 60\u00a0× 24`);
  expect(keepFigures('30 3/4 in, 30 7\u204416″')).toBe(`30\u00a03/4${space}in, 30\u00a07\u204416″`);
  expect(keepFigures('at 20 in May; 6 men; 4 hands; 3 in.')).toBe(`at 20 in May; 6 men; 4 hands; 3${space}in.`);
  expect(plainText('It is *90 mm* off\nby 5\nmm.')).toBe(`It is 90${space}mm off by 5${space}mm.`);
});
