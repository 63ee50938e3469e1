import { expect, test } from 'vitest';
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
