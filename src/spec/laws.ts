import { nearestName, type Problem, type SpecPath } from '../problem/index.ts';
import { byCodeUnit, exact, exactOfNumber, plus, toNumber, ZERO } from '../units/index.ts';
import type { FinishSpec } from './finish.ts';
import type { LoadCaseSpec } from './load-case.ts';
import type { FreePartSpec } from './part.ts';
import type { ProposalSpec } from './proposal.ts';
import type { TableSpec } from './table.ts';
import type { VariantSpec } from './variant.ts';

/** Laws across the fields of one file: what each field allows by itself and all of them together do not. Code: `spec/contradiction`. */
function contradiction(title: string, path: SpecPath, rest: Partial<Problem> = {}): Problem {
  return { code: 'spec/contradiction', severity: 'error', title, path, ...rest };
}

const OPPOSITE = [
  ['front', 'back'],
  ['left', 'right'],
] as const;

/** Laws of proposal.yaml. */
export function proposalLaws(proposal: ProposalSpec): readonly Problem[] {
  const { room, revision } = proposal;
  const problems: Problem[] = [];
  const at = (...path: SpecPath): SpecPath => ['proposal', ...path];
  const { low, high } = room.humidity;
  if (low.percent > high.percent) {
    problems.push(
      contradiction('the driest month is damper than the dampest', at('room', 'humidity', 'low'), {
        found: `${low.written} to ${high.written}`,
        mend: `write low: ${high.written} and high: ${low.written}`,
      }),
    );
  }
  for (const [a, b] of OPPOSITE) {
    if (room.stands[a] === undefined || room.stands[b] === undefined) continue;
    problems.push(
      contradiction(`the free space is given both at the ${a} and at the ${b}`, at('room', 'stands', b), {
        mend: `take one of the two out: the other follows from the size of the room`,
      }),
    );
  }
  const byDay = (date: ProposalSpec['revision']['date']) => date.year * 10_000 + date.month * 100 + date.day;
  if (byDay(revision.validUntil) < byDay(revision.date)) {
    problems.push(
      contradiction('the proposal ends before its own date', at('revision', 'validUntil'), { mend: 'write a later day for validUntil' }),
    );
  }
  problems.push(...pageLaws(proposal), ...wishLaws(proposal), ...sharesLaw(proposal.instalments, at('instalments'), 'the instalments'));
  return problems;
}

/** A page is never guessed: another one may show prices to somebody who is to see none. */
function pageMend(page: string, ids: readonly string[]): string {
  if (ids.length === 0) return 'take page: out, or name the page under pages:';
  const near = nearestName(page, ids);
  return near === undefined ? 'write one of these, or name another under pages:' : `write page: ${near}`;
}

/** Each page is a link and a set of files of its own. */
const MOST_PAGES = 6;

function pageLaws({ pages, deciders }: ProposalSpec): readonly Problem[] {
  const ids = Object.keys(pages);
  const known = ids.length === 0 ? 'no pages are named' : ids.join(', ');
  const tooMany = contradiction('there are more pages than a revision can have', ['proposal', 'pages'], {
    found: `${ids.length}`,
    allowed: `at most ${MOST_PAGES}`,
  });
  const branded = Object.entries(pages).flatMap(([id, { brand, audience }]) =>
    brand === undefined || audience === 'no-price'
      ? []
      : [
          contradiction(`the page ${id} shows prices under another name than yours`, ['proposal', 'pages', id, 'brand'], {
            mend: 'write audience: no-price, or take brand: out',
          }),
        ],
  );
  const unknown = Object.entries(deciders.people).flatMap(([id, { page }]) =>
    page === undefined || Object.hasOwn(pages, page)
      ? []
      : [
          contradiction('somebody who decides is shown a page that is none', ['proposal', 'deciders', 'people', id, 'page'], {
            found: page,
            allowed: known,
            mend: pageMend(page, ids),
          }),
        ],
  );
  return [...(ids.length > MOST_PAGES ? [tooMany] : []), ...branded, ...unknown];
}

function wishLaws(proposal: ProposalSpec): readonly Problem[] {
  return Object.entries(proposal.wishes).flatMap(([id, { measure }]): readonly Problem[] => {
    const path: SpecPath = ['proposal', 'wishes', id, 'measure'];
    if (measure.kind === 'size') {
      if (measure.atLeast === undefined && measure.atMost === undefined) {
        return [contradiction('a size is wished for without saying how large', path, { mend: 'add atLeast: or atMost:' })];
      }
      if (measure.atLeast !== undefined && measure.atMost !== undefined && measure.atLeast.mm > measure.atMost.mm) {
        return [contradiction('the least size is larger than the greatest', [...path, 'atLeast'], { found: measure.atLeast.written })];
      }
    }
    if (measure.kind === 'inset' && measure.below !== undefined && measure.below.mm <= measure.above.mm) {
      return [
        contradiction('nothing lies between these two heights', [...path, 'below'], {
          found: measure.below.written,
          allowed: `more than ${measure.above.written}`,
        }),
      ];
    }
    return [];
  });
}

interface Share {
  readonly percent: { readonly percent: number };
}

function sharesLaw(shares: readonly Share[], path: SpecPath, what: string): readonly Problem[] {
  const sum = shares.reduce((total, share) => plus(total, exactOfNumber(share.percent.percent)), ZERO);
  if (sum.num === exact(100n).num && sum.den === 1n) return [];
  const off = toNumber(plus(sum, exact(-100n)));
  const mend = off > 0 ? `take ${off} % away from one or more of them` : `add ${-off} % to one or more of them`;
  return [contradiction(`${what} do not add up to 100 %`, path, { found: `${toNumber(sum)} %`, allowed: '100 %', mend })];
}

/** Laws of a variant's own words. */
export function variantLaws(variant: VariantSpec): readonly Problem[] {
  const groups = variant.priceGroups;
  return groups === undefined ? [] : sharesLaw(groups, ['variant', 'priceGroups'], 'the groups of the price');
}

/** Laws of one merged table. */
export function tableLaws(table: TableSpec): readonly Problem[] {
  return [
    ...Object.entries(table.parts).flatMap(([id, part]) => partLaws(id, part)),
    ...Object.entries(table.work).flatMap(([id, { hours }]) =>
      hours.low <= hours.mid && hours.mid <= hours.high
        ? []
        : [
            contradiction('the hours do not rise from low over mid to high', ['table', 'work', id, 'hours'], {
              found: `${hours.low}, ${hours.mid}, ${hours.high}`,
            }),
          ],
    ),
    ...chamferLaws(table),
  ];
}

function partLaws(id: string, part: FreePartSpec): readonly Problem[] {
  if (part.wood === undefined || part.material === undefined) return [];
  const mend = 'keep one of the two';
  return [
    contradiction('a part is of a wood and of a material at once', ['table', 'parts', id, 'material'], {
      found: `${part.wood} and ${part.material}`,
      mend,
    }),
  ];
}

function chamferLaws({ top }: TableSpec): readonly Problem[] {
  const chamfer = top.underChamfer;
  if (chamfer === undefined || chamfer.up.mm < top.thickness.mm) return [];
  return [
    contradiction('the chamfer takes the whole edge of the top away', ['table', 'top', 'underChamfer', 'up'], {
      found: chamfer.up.written,
      allowed: `less than the thickness, ${top.thickness.written}`,
    }),
  ];
}

/** Laws of finishes and load cases. */
export function libraryLaws(
  finishes: Readonly<Record<string, FinishSpec>>,
  loadCases: Readonly<Record<string, LoadCaseSpec>>,
): readonly Problem[] {
  return [
    ...Object.entries(finishes).flatMap(
      ([
        id,
        {
          refreshMonths: { low, high },
        },
      ]) =>
        low <= high
          ? []
          : [
              contradiction('the fewest months are more than the most', ['library', 'finishes', id, 'refreshMonths', 'low'], {
                found: `${low} to ${high}`,
              }),
            ],
    ),
    ...Object.entries(loadCases)
      .toSorted(([a], [b]) => byCodeUnit(a, b))
      .flatMap(([id, one]) => loadCaseLaws(id, one)),
  ];
}

function loadCaseLaws(id: string, one: LoadCaseSpec): readonly Problem[] {
  const path: SpecPath = ['library', 'loadCases', id];
  const needsLoad = one.kind !== 'push' && one.load === undefined;
  const needsPush = one.kind !== 'vertical' && one.push === undefined;
  const missing = needsLoad ? 'load' : needsPush ? 'push' : undefined;
  const problems: Problem[] = [];
  if (missing !== undefined)
    problems.push(contradiction(`a load case of the kind ${one.kind} has no ${missing}`, path, { mend: `add ${missing}: with a force` }));
  if (one.least > one.wanted)
    problems.push(contradiction('the least safety factor is above the one wanted', [...path, 'least'], { found: `${one.least}` }));
  return problems;
}
